import type { Problem } from '../book/problems/problem.ts';
import type { KeptTerms } from '../stock/stockLedger.ts';
import { type ClosedMonth, monthOfClosedFile, readClosed } from './closedMonth.ts';
import { keptTerms } from './keptTerms.ts';
import { monthPeriod } from './monthPeriod.ts';

/** The files of closed months, and how to tell whether one was changed. */
export interface ClosedFiles {
  /** Text by name (`closed/2026-10.csv`). */
  readonly files: ReadonlyMap<string, string>;
  /** The digest of a text in hexadecimal digits. */
  readonly sha256: (text: string) => string;
}

/** Closed months by their names (2026-10), the first one first. Files of other names are none of them. */
export function readClosedMonths({ files, sha256 }: ClosedFiles): {
  readonly closed: ReadonlyMap<string, ClosedMonth>;
  readonly problems: readonly Problem[];
} {
  const problems: Problem[] = [];
  const closed = new Map<string, ClosedMonth>();
  for (const [file, text] of [...files].sort(([one], [other]) => (one < other ? -1 : 1))) {
    const month = monthOfClosedFile(file);
    if (month === undefined || monthPeriod(month) === undefined) continue;
    const read = readClosed(file, text, sha256);
    problems.push(...read.problems);
    if (read.closed !== undefined) closed.set(month, read.closed);
  }
  return { closed, problems };
}

/** Wage, tax and what pieces take in closed months, as these keep them. */
export function termsOfClosed(closed: ReadonlyMap<string, ClosedMonth>): KeptTerms {
  return (month, today) => keptTerms(closed.get(month)?.figures ?? [], today);
}
