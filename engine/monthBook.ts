import type { Book } from './book/book.ts';
import { hasErrors, type Problem, problem } from './book/problem.ts';
import { readTable } from './book/readTable.ts';
import type { TableSchema } from './book/schema.ts';
import type { Values } from './calc/values.ts';
import { exact } from './money/exact.ts';
import {
  type ChangedFigure,
  type ClosedMonth,
  changedFigures,
  closedFile,
  type MonthFigure,
  monthOfClosedFile,
  readClosed,
} from './month/closedMonth.ts';
import { type ClosedStock, monthFactsOf, stockKey } from './month/monthFactsOf.ts';
import { monthFigures, type PostedLine, postedLines } from './month/monthFigures.ts';
import { type MonthPeriod, monthBefore, monthPeriod } from './month/monthPeriod.ts';
import { type MonthPlan, monthPlan } from './month/monthPlan.ts';
import { Accounts } from './month/postings.ts';
import { openBook, priceOpened, type Source } from './priceBook.ts';
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

/** A month for the bookkeeper. */
export interface MonthBook {
  readonly month: MonthPeriod;
  readonly problems: readonly Problem[];
  readonly plan: Plan;
  readonly values: Values;
  readonly journal: readonly PostedLine[];
  readonly figures: readonly MonthFigure[];
  /** As it was closed, and what is another figure now. */
  readonly closed?: ClosedMonth;
  readonly changes: readonly ChangedFigure[];
  /** How stock is valued, in words. */
  readonly stockRule: string;
}

/** The book with its history valued, from which every month is made. */
interface History {
  readonly book: Book;
  readonly plan: Plan;
  readonly values: Values;
  readonly ledger: StockLedger;
  readonly accounts: Accounts;
  readonly definitions: readonly SheetDefinition[];
  readonly closed: ReadonlyMap<string, ClosedMonth>;
}

/**
 * Makes the workbook of a month: journal, sales, purchases, stock, cost of sales and tax.
 *
 * Where the month before is closed, its closing stock is this one's opening stock, whatever the book says by now; the
 * difference stands in a column of its own. What has changed in closed months is told as problems: an error of the
 * month that is asked for, something to look at of an earlier one.
 */
export function monthBook(
  given: MonthSource,
  month: MonthPeriod,
): MonthBook | { readonly problems: readonly Problem[] } {
  const { history, problems } = readHistory(given);
  if (history === undefined || hasErrors(problems)) return { problems };
  const own = made(history, month);
  const earlier = [...history.closed.keys()].filter((id) => id < month.id);
  const told = [
    ...problems,
    ...history.accounts.problems,
    ...unmapped(own.plan, own.values),
    ...own.problems,
    ...earlier.flatMap((id) => changesOf(history, id).problems),
  ];
  const { closed, changes, problems: changed } = changesOf(history, month.id, own);
  return {
    month,
    problems: [...told, ...changed.map((each): Problem => ({ ...each, severity: 'error' }))],
    plan: own.plan,
    values: own.values,
    journal: postedLines(own.plan, own.values),
    figures: monthFigures(own.plan, own.values),
    ...(closed === undefined ? {} : { closed }),
    changes,
    stockRule: ruleWords(history.ledger),
  };
}

/** What has changed in the closed months of a book, as things to look at; nothing where none is closed. */
export function closedMonthProblems(given: MonthSource): readonly Problem[] {
  if (![...given.closed.keys()].some((file) => monthOfClosedFile(file) !== undefined)) return [];
  const { history, problems } = readHistory(given);
  const found = [
    ...problems.filter(({ code }) => code === 'month-closed'),
    ...(history === undefined
      ? []
      : [...history.closed.keys()].flatMap((id) => changesOf(history, id).problems)),
  ];
  return found.map((each) => ({ ...each, severity: 'watch' }));
}

function readHistory({ source, sheets, closed: files, sha256 }: MonthSource): {
  readonly history?: History;
  readonly problems: readonly Problem[];
} {
  const opened = openBook(source);
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
    history: { book: opened.book, plan, values, ledger, accounts, definitions, closed },
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

/** A month by its history and by what the month before was closed with. */
function made(history: History, month: MonthPeriod): MonthPlan {
  const { book, plan, values, ledger, accounts, definitions, closed } = history;
  const before = closed.get(monthBefore(month).id);
  const stock = before === undefined ? undefined : closingStock(before, book.settings.currencyDigits);
  const facts = monthFactsOf(month, ledger, book, plan, values, stock);
  return monthPlan(facts, month, accounts, book, definitions);
}

function closingStock(closed: ClosedMonth, digits: number): ReadonlyMap<string, ClosedStock> {
  const stock = new Map<string, ClosedStock>();
  for (const { part, name, figure, value } of closed.figures) {
    if (part === 'journal') continue;
    const key = stockKey(part, name);
    const known = stock.get(key) ?? { quantity: exact(0), coins: 0 };
    const coins = (): number => exact(value).times(exact(10).pow(digits)).toNumber();
    stock.set(
      key,
      figure === 'quantity' ? { ...known, quantity: exact(value) } : { ...known, coins: coins() },
    );
  }
  return stock;
}

/** So many figures of a closed month are told one by one. */
const mostTold = 12;

function changesOf(
  history: History,
  id: string,
  known?: MonthPlan,
): {
  readonly closed?: ClosedMonth;
  readonly changes: readonly ChangedFigure[];
  readonly problems: readonly Problem[];
} {
  const closed = history.closed.get(id);
  const month = monthPeriod(id);
  if (closed === undefined || month === undefined) return { changes: [], problems: [] };
  const { plan, values } = known ?? made(history, month);
  const changes = changedFigures(closed.figures, monthFigures(plan, values));
  const file = closedFile(id);
  const problems = changes.slice(0, mostTold).map(({ part, name, figure, closed: was, now }) =>
    problem(
      'month-closed',
      { file },
      `${month.name}, ${part}: the ${figure} of “${name}” was closed ${was === null ? 'without a figure' : `as ${was}`} and is ${now ?? 'not there'} now.`,
      {
        severity: 'watch',
        found: now ?? '',
        accepted: was ?? 'no such line',
        mend: `Date what came late in an open month; or open the month again with sennit month <book> ${id} --reopen ${id}.`,
      },
    ),
  );
  const more = changes.length - mostTold;
  if (more > 0)
    problems.push(
      problem(
        'month-closed',
        { file },
        `${more === 1 ? 'One more figure' : `${more} more figures`} of ${month.name} changed since it was closed.`,
        { severity: 'watch', mend: `See all of them with sennit month <book> ${id} --json.` },
      ),
    );
  return { closed, changes, problems };
}

/** Postings of the month that no row of `accounts.csv` has an account for, told once. */
function unmapped(plan: Plan, values: Values): Problem[] {
  const count = plan.sheets.find(({ id }) => id === 'accounts')?.rowCount ?? 0;
  const names = new Set<string>();
  for (let row = 0; row < count; row += 1)
    if (values.get('accounts', 'mapped', row) === 'no')
      names.add(String(values.get('accounts', 'posting', row)));
  if (names.size === 0) return [];
  return [
    problem(
      'cell-missing',
      { file: 'accounts.csv' },
      `${names.size === 1 ? 'One posting has' : `${names.size} postings have`} no account code yet: ${[...names].join(', ')}.`,
      {
        severity: 'watch',
        accepted: 'a row for each, such as: sales, , 4000',
        mend: 'Ask your bookkeeper for the codes and write them into accounts.csv. Until then the journal calls accounts by their postings.',
      },
    ),
  ];
}

function ruleWords({ rule }: StockLedger): string {
  const method = rule.method === 'average' ? 'weighted average' : 'first in, first out';
  const period = rule.periodMonths === 1 ? 'month' : rule.periodMonths === 3 ? 'quarter' : 'year';
  return rule.timing === 'perpetual'
    ? `${method}, with every movement`
    : `${method}, once for a whole ${period}`;
}
