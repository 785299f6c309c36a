import {
  batchTables,
  type CutReport,
  combined,
  hasErrors,
  linesToMake,
  type Priced,
  priceBook,
  productNames,
  type Source,
  switchBook,
} from '../engine/index.ts';
import { type Answer, answer, refused } from './answer.ts';
import { type BookTexts, sourceOf } from './bookTexts.ts';
import { dayProblems } from './question.ts';
import { version } from './version.ts';

/** What a workbook is to be. */
export interface WorkbookChoice {
  /** The day to print on it, as ISO 8601 writes it: `2026-11-26`. */
  readonly date: string;
  /** Office Open XML (`xlsx`) unless given, or OpenDocument. */
  readonly format?: 'xlsx' | 'ods';
  /** A plan of `planCutting` for the same book: adds the sheets Make, Cutting plan, Fittings and Shopping list. */
  readonly cutting?: CutReport;
}

/**
 * Writes a book as a workbook in which every computed cell is a live formula. Before that it is calculated a second time,
 * by another engine: formulas of the book's own that the two read differently are refused (`programs-differ`). The same
 * texts, date and choice give the same bytes.
 *
 * @returns the bytes of the file
 */
export async function writeWorkbook(texts: BookTexts, choice: WorkbookChoice): Promise<Answer<Uint8Array>> {
  const source = sourceOf(texts);
  const { cutting, date, format = 'xlsx' } = choice;
  const unclear = dayProblems('date', date);
  const base = cutting === undefined ? undefined : priceBook(source);
  const { plan, values, problems: found } = switchBook(withCutting(source, cutting, base));
  const problems = [...unclear, ...found];
  if (plan === undefined || values === undefined || hasErrors(problems)) return refused(problems);
  // Loaded here and not at the start: both are large, and no other question needs them.
  const { checkedByReference } = await import('../engine/reference.ts');
  const { workbook } = await import('../engine/export/workbook.ts');
  const reference = checkedByReference(plan, values);
  const all = [...reference.problems, ...problems];
  if (hasErrors(reference.problems)) return refused(all);
  const foreign = cutting === undefined || isOwnBatch(cutting, base) ? [] : ['make.csv'];
  const about = { date, version, files: source.book, foreign };
  const bytes = await workbook(plan, reference.values, about, format);
  return answer(all, () => bytes);
}

function withCutting(source: Source, cutting: CutReport | undefined, base: Priced | undefined): Source {
  if (cutting === undefined || base?.plan === undefined || base.values === undefined) return source;
  return { ...source, made: batchTables(base.plan, base.values, cutting) };
}

/** What was planned by another table than the book's own make.csv cannot go home into it. */
function isOwnBatch({ make }: CutReport, base: Priced | undefined): boolean {
  const { book, plan, values } = base ?? {};
  if (book === undefined || plan === undefined || values === undefined) return false;
  const own = combined(linesToMake(book), productNames(plan, values));
  const told = (lines: CutReport['make']): string =>
    JSON.stringify(lines.map(({ product, quantity, remark = '' }) => [product, quantity, remark]));
  return told(own) === told(make);
}
