import type { Book } from './book/book.ts';
import { dayText, isoDay, periodStart } from './book/measures/day.ts';
import { hasErrors, type Problem, problem } from './book/problems/problem.ts';
import { readField } from './book/readField.ts';
import { type ClosedFiles, readClosedMonths, termsOfClosed } from './month/closedMonths.ts';
import { type OtherFigure, type Priced, priceBook, type Source } from './priceBook.ts';
import { type KeptTerms, type StockLedger, stockLedger } from './stock/stockLedger.ts';
import { type Span, stockTables } from './stock/stockTables.ts';
import { unlikelyEntries } from './stock/unlikely.ts';
import { varianceTables } from './stock/varianceTables.ts';

/** How to value stock for once, and over which days; as text, as it was given on a command line. */
export interface StockQuestion {
  readonly method?: string;
  readonly timing?: string;
  readonly period?: string;
  readonly from?: string;
  readonly to?: string;
}

/** A calculated book with the sheets of stock; ledger and span are absent where errors stand in the way. */
export interface StockBook extends Priced {
  readonly ledger?: StockLedger;
  readonly span?: Span;
}

/**
 * Values the stock of a book: the book is calculated for what materials and pieces should cost and take, what
 * happened is read and valued, and the book is calculated again with the sheets of stock.
 *
 * Without days it is the period of the last thing that happened, to its day.
 *
 * @param closed months that are closed: they are valued by the terms that they were closed with
 */
export function stockBook(source: Source, question: StockQuestion = {}, closed?: ClosedFiles): StockBook {
  const asked = { ...source, strict: true, figures: [...(source.figures ?? []), ...figuresOf(question)] };
  const first = priceBook(asked);
  const { book, plan, values } = first;
  if (book === undefined || plan === undefined || values === undefined || hasErrors(first.problems))
    return first;
  const { ledger, problems: found } = stockLedger(book, plan, values, termsOf(closed));
  const problems = [...found];
  const span = spanOf(book, ledger, question, problems);
  if (span === undefined || hasErrors(problems))
    return { ...first, problems: [...first.problems, ...problems] };
  const made = new Map([
    ...(source.made ?? []),
    ...stockTables(ledger, book.settings, span),
    ...varianceTables(ledger, book, span),
  ]);
  const second = priceBook({ ...asked, made });
  return { ...second, problems: [...second.problems, ...problems], ledger, span };
}

/**
 * What is wrong with the tables of what happened, stock that went below nothing and entries that are hardly meant, in a
 * book that can be priced.
 *
 * @param today ISO 8601; without it no day is in the future
 */
export function stockProblems(
  { book, plan, values }: Priced,
  closed?: ClosedFiles,
  today?: string,
): Problem[] {
  if (book === undefined || plan === undefined || values === undefined) return [];
  const { ledger, problems } = stockLedger(book, plan, values, termsOf(closed));
  const told = new Set<string>();
  const short = ledger.shortages.flatMap(({ item, day, below, place }) => {
    if (told.has(item)) return [];
    told.add(item);
    return [
      problem('check-failed', place, `${item} went below nothing on ${dayText(day)}, by ${below}.`, {
        severity: 'watch',
        accepted: 'no more taken than there is',
        mend: 'Look for a purchase, a row of made.csv or an opening balance that is missing, or count it.',
      }),
    ];
  });
  return [
    ...problems,
    ...short,
    ...unlikelyEntries(ledger, plan, values, today === undefined ? undefined : isoDay(today)),
  ];
}

/** What is wrong with the file of a closed month, its own commands tell. */
function termsOf(closed: ClosedFiles | undefined): KeptTerms | undefined {
  return closed === undefined ? undefined : termsOfClosed(readClosedMonths(closed).closed);
}

function figuresOf({ method, timing, period }: StockQuestion): OtherFigure[] {
  return [
    { id: 'stock_method', text: method, said: '--method' },
    { id: 'stock_timing', text: timing, said: '--timing' },
    { id: 'stock_period', text: period, said: '--period' },
  ].flatMap(({ text, ...each }) => (text === undefined ? [] : [{ ...each, text }]));
}

function spanOf(
  book: Book,
  ledger: StockLedger,
  question: StockQuestion,
  problems: Problem[],
): Span | undefined {
  const day = (text: string | undefined, option: string): number | undefined => {
    if (text === undefined) return undefined;
    const field = { id: option, kind: 'date', required: true } as const;
    const { value } = readField(text, field, book.settings, { file: option }, problems);
    return typeof value === 'number' ? value : undefined;
  };
  const from = day(question.from, '--from');
  const to = day(question.to, '--to');
  if (hasErrors(problems)) return undefined;
  const last = lastDay(ledger);
  if (last === undefined) {
    problems.push(nothingHappened());
    return undefined;
  }
  const until = to ?? Math.max(last, from ?? last);
  const since = from ?? periodStart(until, ledger.rule.periodMonths);
  if (since <= until) return { from: since, to: until };
  problems.push(
    problem('out-of-range', { file: '--from' }, `${dayText(since)} is after ${dayText(until)}.`, {
      found: dayText(since),
      accepted: `a day until ${dayText(until)}`,
      mend: 'Give the earlier day first.',
    }),
  );
  return undefined;
}

/** Also a count that found everything there is something that happened. */
function lastDay({ moves, counted }: StockLedger): number | undefined {
  const days = [...moves.slice(-1), ...counted].map(({ day }) => day);
  return days.reduce<number | undefined>((last, day) => Math.max(last ?? day, day), undefined);
}

function nothingHappened(): Problem {
  return problem('cell-missing', { file: 'purchases.csv' }, 'The book has nothing that moved any stock.', {
    accepted: 'rows in stocktakes.csv, purchases.csv, made.csv, used.csv or sales.csv',
    mend: 'Begin with an opening balance: one row an item in stocktakes.csv, with its date, quantity and value.',
  });
}
