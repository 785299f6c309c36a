import { hasErrors, type Problem, problem } from './book/problems/problem.ts';
import type { CellPlace } from './calc/program/compileProgram.ts';
import type { Values } from './calc/values.ts';
import { type OpenedBook, openBook, type Priced, priceOpened, type Source } from './priceBook.ts';
import type { Plan } from './sheets/plan.ts';
import { applyChanges } from './whatif/applyChanges.ts';
import type { Mover } from './whatif/mover.ts';
import { heldTickets } from './whatif/prices.ts';
import type { Alteration, ChangeFault, PlainChange } from './whatif/words/change.ts';
import { isFault } from './whatif/words/findInputs.ts';
import { type FoundResult, findResult, findResults, resultIn } from './whatif/words/findResults.ts';

/**
 * What asking prices do while inputs move: `held` stay as they are today, `follow` go with their cost where they are
 * not set by hand.
 */
export type PriceRule = 'held' | 'follow';

/** A book as sweeps work on it. */
export interface SweptBook {
  readonly plan: Plan;
  readonly values: Values;
  readonly prices: PriceRule;
  /** The whole path anew with one input altered: what a sweep has found is checked by it. */
  readonly priceWith: (mover: Mover, alteration: Alteration) => Priced;
  /** What the book says today. */
  readonly priced: Priced;
}

/** The answer to a question about a book, or the problems that stand in its way. */
export interface Swept<Report> {
  readonly problems: readonly Problem[];
  readonly priced: Priced;
  readonly report?: Report;
}

/** Opens and prices a book for sweeps; without a swept book where errors stand in the way. */
export function sweptBook(
  source: Source,
  prices: PriceRule,
): { readonly priced: Priced; readonly swept?: SweptBook } {
  const opened: OpenedBook = openBook(source);
  const priced = priceOpened(opened);
  if (priced.plan === undefined || priced.values === undefined || hasErrors(priced.problems))
    return { priced };
  const today = priced.values;
  const rule = (plan: Plan): Plan => (prices === 'held' ? heldTickets(plan, today) : plan);
  const ruled = prices === 'held' ? priceOpened(opened, rule) : priced;
  if (ruled.plan === undefined || ruled.values === undefined)
    throw new Error('A book with its own prices held cannot be priced');
  return {
    priced,
    swept: {
      plan: ruled.plan,
      values: ruled.values,
      prices,
      priced,
      priceWith: (mover, alteration) =>
        priceOpened(opened, (plan) => applyChanges(rule(plan), [changeOf(mover, alteration)]).plan),
    },
  };
}

function changeOf(mover: Mover, alteration: Alteration): PlainChange {
  const cells = mover.cells.map(({ sheet, column, row }) => ({ sheet, column, rows: [row] }));
  return { text: mover.name, cells, alteration };
}

/** A fault of the question itself. */
export function asked(found: string, { message, accepted, mend }: ChangeFault): Problem {
  return problem('change-unclear', { file: 'command line' }, message, { found, accepted, mend });
}

/** One result of a book that has a figure today, by its name or its place. */
export function resultNamed(of: string | CellPlace, book: SweptBook): FoundResult | ChangeFault {
  const found = typeof of === 'string' ? findResult(of, book.plan) : resultIn(of, book.plan);
  return isFault(found) ? found : calculated(found, book);
}

/** All results that a text names. */
export function resultsNamed(text: string, book: SweptBook): readonly FoundResult[] | ChangeFault {
  const found = findResults(text, book.plan);
  if (isFault(found)) return found;
  for (const each of found) {
    const checked = calculated(each, book);
    if (isFault(checked)) return checked;
  }
  return found;
}

function calculated(result: FoundResult, { values }: SweptBook): FoundResult | ChangeFault {
  const today = values.get(result.sheet, result.column, result.row);
  if (typeof today === 'number') return result;
  return {
    message: `${result.name} has no figure today.`,
    accepted: 'a result that can be calculated as the book stands',
    mend: 'Look at the book with sennit check, or ask for another result.',
  };
}

/** The month's profit, where the book expects sales. */
export function usualResult(book: SweptBook): FoundResult | ChangeFault {
  if (book.plan.sheets.some(({ id }) => id === 'month')) return resultNamed("month's profit", book);
  const row = (column: string): string =>
    String(
      book.plan.sheets.find(({ id }) => id === 'prices')?.columns.find(({ id }) => id === column)
        ?.inputs?.[0] ?? '',
    );
  return {
    message:
      'There is no month in this book to look at (it has no sales_mix.csv), so a result must be named.',
    accepted: 'margin, contribution, profit, asking price, floor or unit cost of a product',
    mend: `Add --of, such as --of "margin of ${row('product')} at ${row('channel')}".`,
  };
}
