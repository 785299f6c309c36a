import type { BookFiles } from '../book/book.ts';
import { fingerprint } from '../book/files/fingerprint.ts';
import type { Origin } from './origin.ts';

/** What a workbook was made of: two that agree in both were written from the same files by the same formulas. */
export interface Provenance {
  /** Fingerprint of every file of the book, names included; none where the workbook is of no book. */
  readonly book?: string;
  readonly bookFiles: number;
  /** Fingerprint of the formulas of every sheet. */
  readonly formulas: string;
}

export function provenanceOf({ sheets }: Origin, files: BookFiles = new Map()): Provenance {
  const named = [...files].map(([name, text]) => `${name}\n${fingerprint(text)}`).sort();
  const spelled = sheets.map(({ id, columns }) => [id, columns.map((each) => [each.id, each.shapes ?? []])]);
  return {
    ...(named.length === 0 ? {} : { book: fingerprint(named.join('\n')) }),
    bookFiles: named.length,
    formulas: fingerprint(JSON.stringify(spelled)),
  };
}
