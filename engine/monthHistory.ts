import type { Book } from './book/book.ts';
import { hasErrors, type Problem } from './book/problems/problem.ts';
import { readTable } from './book/readTable.ts';
import type { TableSchema } from './book/schema.ts';
import type { Values } from './calc/values.ts';
import { exact } from './money/exact.ts';
import { type ClosedMonth, type MonthFigure, termsPart } from './month/closedMonth.ts';
import { type ClosedFiles, readClosedMonths, termsOfClosed } from './month/closedMonths.ts';
import { keptChannels, termFigures } from './month/keptTerms.ts';
import { lateFacts } from './month/lateFacts.ts';
import { lateLines } from './month/lateLines.ts';
import type { MonthFacts, VarianceFact } from './month/monthFacts.ts';
import { type ClosedStock, channelFacts, monthFactsOf, stockKey } from './month/monthFactsOf.ts';
import { monthFigures, type PostedLine, postedLines } from './month/monthFigures.ts';
import { type MonthPeriod, monthBefore } from './month/monthPeriod.ts';
import { type MonthPlan, monthPlan } from './month/monthPlan.ts';
import { Accounts } from './month/postings.ts';
import { varianceFacts, withVariances } from './month/varianceFacts.ts';
import { type OpenedBook, openBook, priceOpened, type Source } from './priceBook.ts';
import type { SheetDefinition } from './sheets/definition.ts';
import type { Plan } from './sheets/plan.ts';
import { assemble } from './sheets/readDefinitions.ts';
import type { SheetFile } from './sheets/readSheetFile.ts';
import { type StockLedger, stockLedger } from './stock/stockLedger.ts';

/** What a month is made from, beside the book. */
export interface MonthSource {
  /** Prices the book. Its tables bring `postings.csv`. */
  readonly source: Source;
  /** The shipped sheets of a month, read. */
  readonly sheets: readonly SheetFile[];
  /** Months that are closed. */
  readonly closed: ClosedFiles;
}

/** The book with its history valued, from which every month is made. */
export interface History {
  readonly opened: OpenedBook;
  readonly book: Book;
  readonly plan: Plan;
  readonly values: Values;
  readonly ledger: StockLedger;
  readonly accounts: Accounts;
  readonly definitions: readonly SheetDefinition[];
  readonly closed: ReadonlyMap<string, ClosedMonth>;
  /** Months that were made already, without their variances, by their names (2026-10). */
  readonly made: Map<string, MonthOfHistory>;
}

/** A month with what is handed over of it. */
export interface MonthOfHistory extends MonthPlan {
  readonly journal: readonly PostedLine[];
  readonly figures: readonly MonthFigure[];
}

/** Reads a book, values what happened in it, and reads its closed months. */
export function readHistory({ source, sheets, closed: closedFiles }: MonthSource): {
  readonly history?: History;
  readonly problems: readonly Problem[];
} {
  const opened = openBook({ ...source, strict: true });
  const { plan, values, problems: all } = priceOpened(opened);
  // What is to look at in prices is no matter of a month.
  const problems: Problem[] = [
    ...opened.problems,
    ...all.filter((each) => each.severity === 'error' && !opened.problems.includes(each)),
  ];
  if (opened.book === undefined || plan === undefined || values === undefined || hasErrors(problems))
    return { problems };
  const { closed, problems: unreadable } = readClosedMonths(closedFiles);
  problems.push(...unreadable);
  const { ledger, problems: ofStock } = stockLedger(opened.book, plan, values, termsOfClosed(closed));
  const { definitions, problems: faults } = assemble(sheets);
  if (hasErrors(faults)) throw new Error(`The month's sheets: ${faults[0]?.message}`);
  const accounts = new Accounts(opened.book.tables.get('accounts'), postingWords(source));
  return {
    history: {
      opened,
      book: opened.book,
      plan,
      values,
      ledger,
      accounts,
      definitions,
      closed,
      made: new Map(),
    },
    problems: [...problems, ...ofStock],
  };
}

const postingsSchema: TableSchema = {
  table: 'postings',
  fields: ['posting', 'name', 'meaning'].map((id) => ({ id, kind: 'text', required: true })),
  key: ['posting'],
  needed: false,
};

function postingWords({ tables }: Source): ReturnType<typeof readTable>['table'] {
  const text = tables.get('postings.csv');
  if (text === undefined) throw new Error('The shipped postings.csv is missing');
  const { table, problems } = readTable('templates/postings.csv', text, postingsSchema, {
    workshop: '',
    currency: 'USD',
    currencyDigits: 2,
    decimal: 'point',
    lengthUnit: 'in',
    cordUnit: 'ft',
    weightUnit: 'oz',
  });
  if (problems.length > 0) throw new Error(`The shipped postings.csv: ${problems[0]?.message}`);
  return table;
}

/**
 * A month by its history, by what the month before was closed with, and by what has changed in closed months since.
 *
 * @param isWhole with its variances
 */
export function monthOfHistory(history: History, month: MonthPeriod, isWhole = false): MonthOfHistory {
  const known = history.made.get(month.id);
  if (known !== undefined && !isWhole) return known;
  const { opened, book, plan, values, ledger, accounts, definitions, closed } = history;
  const digits = book.settings.currencyDigits;
  const today = channelFacts(plan, values);
  const channels = keptChannels(closed.get(month.id)?.figures ?? [], today);
  const before = closed.get(monthBefore(month).id);
  const stock = before === undefined ? undefined : closingStock(before, digits);
  const run = closedBefore(history, month);
  const facts: MonthFacts = {
    ...monthFactsOf(month, ledger, book, channels, stock),
    late: lateFacts(run, digits),
    lateLines: run.flatMap(({ month: own, closed: was, figures }) =>
      lateLines(own, was.figures, figures, digits),
    ),
    // Nobody compares the variances of a closed month: what they are planned by may change at any time.
    variances: isWhole ? variancesOf(opened, book, ledger, month) : [],
  };
  const made = monthPlan(facts, month, accounts, book, definitions);
  const whole = {
    ...made,
    journal: postedLines(made.plan, made.values),
    figures: [...monthFigures(made.plan, made.values), ...termFigures(month, ledger, channels)],
  };
  if (!isWhole) history.made.set(month.id, whole);
  return whole;
}

/** Months that are closed one after the other up to this one, the first one first, as they are by the book now. */
function closedBefore(
  history: History,
  month: MonthPeriod,
): readonly {
  readonly month: MonthPeriod;
  readonly closed: ClosedMonth;
  readonly now: readonly PostedLine[];
  readonly figures: readonly MonthFigure[];
}[] {
  const before = monthBefore(month);
  const closed = history.closed.get(before.id);
  if (closed === undefined) return [];
  const earlier = closedBefore(history, before);
  const { journal, figures } = monthOfHistory(history, before);
  return [...earlier, { month: before, closed, now: journal, figures }];
}

/** The variances of a month, worked out by the book's own sheets. */
function variancesOf(
  opened: OpenedBook,
  book: Book,
  ledger: StockLedger,
  month: MonthPeriod,
): readonly VarianceFact[] {
  const { plan, values } = priceOpened({ ...opened, book: withVariances(book, ledger, month) });
  return plan === undefined || values === undefined ? [] : varianceFacts(plan, values);
}

function closingStock(closed: ClosedMonth, digits: number): ReadonlyMap<string, ClosedStock> {
  const stock = new Map<string, ClosedStock>();
  for (const { part, name, figure, value } of closed.figures) {
    if (part === 'journal' || part === termsPart) continue;
    const key = stockKey(part, name);
    const known = stock.get(key) ?? { part, name, quantity: exact(0), coins: 0 };
    const coins = (): number => exact(value).times(exact(10).pow(digits)).toNumber();
    stock.set(
      key,
      figure === 'quantity' ? { ...known, quantity: exact(value) } : { ...known, coins: coins() },
    );
  }
  return stock;
}
