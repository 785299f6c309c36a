import { dayText } from './book/measures/day.ts';
import { hasErrors, type Problem, problem } from './book/problems/problem.ts';
import type { Values } from './calc/values.ts';
import {
  type ChangedFigure,
  type ClosedMonth,
  changedFigures,
  closedFile,
  type MonthFigure,
  monthOfClosedFile,
} from './month/closedMonth.ts';
import { type LateChange, lateChanges, type PostedLine } from './month/monthFigures.ts';
import { type MonthPeriod, monthAfter, monthBefore, monthPeriod } from './month/monthPeriod.ts';
import { postingOfWords } from './month/postings.ts';
import {
  type History,
  type MonthOfHistory,
  type MonthSource,
  monthOfHistory,
  readHistory,
} from './monthHistory.ts';
import type { Plan } from './sheets/plan.ts';
import type { StockLedger } from './stock/stockLedger.ts';

/** A month for the bookkeeper. */
export interface MonthBook {
  readonly month: MonthPeriod;
  readonly problems: readonly Problem[];
  readonly plan: Plan;
  readonly values: Values;
  readonly journal: readonly PostedLine[];
  readonly figures: readonly MonthFigure[];
  readonly lateChanges: readonly LateChange[];
  /** As it was closed, and what is another figure now. */
  readonly closed?: ClosedMonth;
  readonly changes: readonly ChangedFigure[];
  /** How stock is valued, in words. */
  readonly stockRule: string;
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
  const own = monthOfHistory(history, month, true);
  const told = [
    ...problems,
    ...history.accounts.problems,
    ...unmapped(own.plan, own.values),
    ...own.problems,
    ...shortages(history.ledger, month),
    ...notClosed(history, month),
    ...unposted(history, month.id),
  ];
  const { closed, changes, problems: changed } = changesOf(history, month.id, own);
  return {
    month,
    problems: [...told, ...changed.map((each): Problem => ({ ...each, severity: 'error' }))],
    plan: own.plan,
    values: own.values,
    journal: own.journal,
    figures: own.figures,
    lateChanges: lateChanges(own.plan, own.values),
    ...(closed === undefined ? {} : { closed }),
    changes,
    stockRule: ruleWords(history.ledger),
  };
}

/** What has changed in the closed months of a book, as things to look at; nothing where none is closed. */
export function closedMonthProblems(given: MonthSource): readonly Problem[] {
  if (![...given.closed.files.keys()].some((file) => monthOfClosedFile(file) !== undefined)) return [];
  const { history, problems } = readHistory(given);
  const found = [
    ...problems.filter(({ code }) => code === 'month-closed'),
    ...(history === undefined ? [] : unposted(history)),
  ];
  return found.map((each) => ({ ...each, severity: 'watch' }));
}

/** The month before had something in it and is not closed, so that what it ended with can still become another sum. */
function notClosed({ closed, ledger }: History, month: MonthPeriod): Problem[] {
  const before = monthBefore(month);
  const moved = ledger.moves.some(
    ({ day, what }) => day >= before.first && day <= before.last && what !== 'opening',
  );
  if (!moved || closed.has(before.id)) return [];
  return [
    problem(
      'month-closed',
      { file: 'closed/' },
      `${before.name} is not closed: what it ended with, and this month begins with, is reckoned by the wage, costs and recipes of today.`,
      {
        severity: 'watch',
        mend: `When ${before.name} is handed over, close it: sennit month <book> ${before.id} --close.`,
      },
    ),
  ];
}

/**
 * What has changed in closed months and is posted in no month yet; before a month, where one is given. What a later
 * closed month has posted is settled.
 */
function unposted(history: History, before?: string): Problem[] {
  const problems: Problem[] = [];
  let run: string[] = [];
  for (const id of history.closed.keys()) {
    const month = monthPeriod(id);
    if (month === undefined || (before !== undefined && id >= before)) continue;
    run.push(id);
    const next = monthAfter(month);
    if (next.id !== before && history.closed.has(next.id)) continue;
    if (isLate(monthOfHistory(history, next)))
      problems.push(...run.flatMap((each) => changesOf(history, each).problems));
    run = [];
  }
  return problems;
}

/** The month posts something of closed ones. */
function isLate({ journal, plan, values }: MonthOfHistory): boolean {
  const moved = (sheet: string, column: string): boolean =>
    Array.from(
      { length: plan.sheets.find(({ id }) => id === sheet)?.rowCount ?? 0 },
      (_, row) => values.number(sheet, column, row) !== 0,
    ).some((each) => each);
  // A quantity may have changed and no value.
  return (
    journal.some((line) => line.isLate) ||
    moved('materials', 'late_quantity') ||
    moved('products', 'late_pieces')
  );
}

/** So many figures of a closed month are told one by one. */
const mostTold = 12;

function changesOf(
  history: History,
  id: string,
  known?: MonthOfHistory,
): {
  readonly closed?: ClosedMonth;
  readonly changes: readonly ChangedFigure[];
  readonly problems: readonly Problem[];
} {
  const closed = history.closed.get(id);
  const month = monthPeriod(id);
  if (closed === undefined || month === undefined) return { changes: [], problems: [] };
  const changes = changedFigures(closed.figures, (known ?? monthOfHistory(history, month)).figures);
  const file = closedFile(id);
  const problems = changes
    .slice(0, mostTold)
    .map(({ part, name, figure, closed: was, now }) =>
      problem(
        'month-closed',
        { file },
        `${month.name}, ${part}: the ${figure} of “${name}” was closed ${was === null ? 'without a figure' : `as ${was}`} and is ${now ?? 'not there'} now.`,
        { severity: 'watch' },
      ),
    );
  const more = changes.length - mostTold;
  // First of all how many, and what to do.
  if (changes.length > 0)
    problems.unshift(
      problem(
        'month-closed',
        { file },
        `${changes.length === 1 ? 'One figure' : `${changes.length} figures`} of ${month.name} changed since it was closed${more > 0 ? ` (all of them: sennit month <book> ${id} --json)` : ''}.`,
        {
          severity: 'watch',
          mend: `Leave it, and the first month that is still open posts the difference. Or open the month again with sennit month <book> ${id} --reopen ${id}.`,
        },
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
      names.add(postingOfWords(String(values.get('accounts', 'posting', row))));
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

/** So many shortages are told one by one. */
const mostShortages = 10;

/** Days of the month on which more left than was there; what is still missing at its end, its sheets tell. */
function shortages({ shortages: all }: StockLedger, month: MonthPeriod): Problem[] {
  const found = all.filter(({ day }) => day >= month.first && day <= month.last);
  const told = found.slice(0, mostShortages).map(({ item, day, below, place }) =>
    problem(
      'check-failed',
      place,
      `On ${dayText(day)} ${item} was ${below.toDecimalPlaces(4)} below nothing: more left than was there.`,
      {
        severity: 'watch',
        accepted: 'stock that came in on that day or before it',
        mend: 'Enter the purchase, the pieces made or the opening balance that is missing, or correct the day.',
      },
    ),
  );
  const more = found.length - told.length;
  if (more > 0)
    told.push(
      problem(
        'check-failed',
        { file: 'stocktakes.csv' },
        `${more} more times of the month stock was below nothing.`,
        {
          severity: 'watch',
          mend: 'See all of them with sennit stock.',
        },
      ),
    );
  return told;
}
