import { batchTables } from '../../engine/cutting/batchTables.ts';
import { cutBook } from '../../engine/cutting/cutBook.ts';
import type { CutBookOptions } from '../../engine/cutting/cutMaterial.ts';
import type { CutReport } from '../../engine/cutting/cutReport.ts';
import { cutSettings } from '../../engine/cutting/cutSettings.ts';
import { combined, linesToMake, type OrderLine, productNames } from '../../engine/cutting/order.ts';
import { type Priced, priceBook } from '../../engine/priceBook.ts';
import { solver } from './solverForTests.ts';
import { type BookText, sourceOf } from './books.ts';

/** A solved batch: the book before, the report, and the book with the batch in it. */
export interface SolvedBatch {
  readonly before: Required<Priced>;
  readonly report: CutReport;
  readonly after: Required<Priced>;
}

function whole(priced: Priced): Required<Priced> {
  const { plan, values, book } = priced;
  if (plan === undefined || values === undefined || book === undefined)
    throw new Error(priced.problems.map((each) => `${each.where.file}: ${each.message}`).join('\n'));
  return { ...priced, plan, values, book };
}

/** Prices a book, plans its make.csv (or these lines instead), and prices it again with the plan. */
export async function solvedBatch(
  book: BookText,
  lines?: readonly OrderLine[],
  options: Partial<CutBookOptions> = {},
): Promise<SolvedBatch> {
  const source = sourceOf(book);
  const before = whole(priceBook(source));
  const order = combined(lines ?? linesToMake(before.book), productNames(before.plan, before.values));
  const report = await cutBook(before.plan, before.values, order, solver, {
    ...cutSettings(before.plan, before.values),
    ...options,
  });
  const made = batchTables(before.plan, before.values, report);
  return { before, report, after: whole(priceBook({ ...source, made })) };
}
