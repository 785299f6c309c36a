import type { Book } from './book/book.ts';
import { hasErrors, type Problem } from './book/problem.ts';
import { readTable } from './book/readTable.ts';
import type { TableSchema } from './book/schema.ts';
import type { Values } from './calc/values.ts';
import { exact } from './money/exact.ts';
import { type ClosedMonth, monthOfClosedFile, readClosed } from './month/closedMonth.ts';
import type { VarianceFact } from './month/monthFacts.ts';
import { type ClosedStock, monthFactsOf, stockKey } from './month/monthFactsOf.ts';
import { type MonthPeriod, monthBefore, monthPeriod } from './month/monthPeriod.ts';
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
  /** Months that are closed: their files' text by name (`closed/2026-10.csv`). */
  readonly closed: ReadonlyMap<string, string>;
  /** The digest of a text in hexadecimal digits. */
  readonly sha256: (text: string) => string;
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
}

/** Reads a book, values what happened in it, and reads its closed months. */
export function readHistory({ source, sheets, closed: files, sha256 }: MonthSource): {
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
  const { ledger, problems: ofStock } = stockLedger(opened.book, plan, values);
  const closed = new Map<string, ClosedMonth>();
  for (const [file, text] of [...files].sort(([one], [other]) => (one < other ? -1 : 1))) {
    const month = monthOfClosedFile(file);
    if (month === undefined || monthPeriod(month) === undefined) continue;
    const read = readClosed(file, text, sha256);
    problems.push(...read.problems);
    if (read.closed !== undefined) closed.set(month, read.closed);
  }
  const { definitions, problems: faults } = assemble(sheets);
  if (hasErrors(faults)) throw new Error(`The month's sheets: ${faults[0]?.message}`);
  const accounts = new Accounts(opened.book.tables.get('accounts'), postingWords(source));
  return {
    history: { opened, book: opened.book, plan, values, ledger, accounts, definitions, closed },
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
 * A month by its history and by what the month before was closed with.
 *
 * @param isWhole with its variances
 */
export function monthOfHistory(history: History, month: MonthPeriod, isWhole = false): MonthPlan {
  const { opened, book, plan, values, ledger, accounts, definitions, closed } = history;
  const before = closed.get(monthBefore(month).id);
  const stock = before === undefined ? undefined : closingStock(before, book.settings.currencyDigits);
  const facts = monthFactsOf(month, ledger, book, plan, values, stock);
  // Nobody compares the variances of a closed month: what they are planned by may change at any time.
  const variances = isWhole ? variancesOf(opened, book, ledger, month) : [];
  return monthPlan({ ...facts, variances }, month, accounts, book, definitions);
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
    if (part === 'journal') continue;
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
