import type { Book } from '../book/book.ts';
import { dayText } from '../book/measures/day.ts';
import { type Place, type Problem, problem } from '../book/problems/problem.ts';
import { type Exact, exact, exactOf } from '../money/exact.ts';
import { gather } from './gather.ts';
import { datedRows } from './rows.ts';
import type { TermsOn } from './terms.ts';

/** What one unit of a currency cost on a day, and where that stands. */
export interface DayRate {
  readonly rate: Exact;
  /** `day_rates.csv 2026-10-05`, `exchange.csv`, or blank for the book's own currency. */
  readonly from: string;
}

/**
 * Rates by currency and day: that of the day, or the last one before it, or what exchange.csv says.
 *
 * @param termsOn what exchange.csv says, or said when the month was closed
 * @returns a look-up that tells a problem, and takes 1, where there is none
 */
export function dayRates(
  book: Book,
  termsOn: TermsOn,
  problems: Problem[],
): (currency: string, day: number, place: Place) => DayRate {
  const byCurrency = new Map<string, { day: number; rate: Exact }[]>();
  for (const row of datedRows(book, 'day_rates')) {
    const currency = row.text('currency').toUpperCase();
    const rate = row.number('rate');
    if (rate === null) continue;
    gather(byCurrency, currency, { day: row.day, rate: exactOf(rate) });
  }
  for (const rates of byCurrency.values()) rates.sort((one, other) => other.day - one.day);
  const told = new Set<string>();
  return (given, day, place) => {
    const currency = given.toUpperCase();
    if (currency === '' || currency === book.settings.currency) return { rate: exact(1), from: '' };
    const last = byCurrency.get(currency)?.find((each) => each.day <= day);
    if (last !== undefined) return { rate: last.rate, from: `day_rates.csv ${dayText(last.day)}` };
    const rate = termsOn(day).exchange.get(currency);
    if (rate !== undefined) return { rate, from: 'exchange.csv' };
    if (!told.has(currency)) {
      problems.push(
        problem(
          'reference-unknown',
          { ...place, column: 'currency' },
          `There is no rate for “${given}” on or before ${dayText(day)}.`,
          {
            found: given,
            accepted: 'a currency with a row in day_rates.csv (on or before the day) or in exchange.csv',
            mend: `Write what one ${currency} cost in ${book.settings.currency} into day_rates.csv.`,
          },
        ),
      );
      told.add(currency);
    }
    return { rate: exact(1), from: '' };
  };
}
