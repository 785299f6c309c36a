import { type Book, sameKey } from '../book/book.ts';
import type { Place } from '../book/problems/problem.ts';
import { coinsOf, type Exact, exact, exactOf } from '../money/exact.ts';
import type { Item } from './items.ts';
import { datedRows } from './rows.ts';
import type { Need, TermsOn } from './terms.ts';

/** Pieces that were finished on a day; labour and overhead in smallest coins. */
export interface ProducedLine {
  readonly day: number;
  readonly product: string;
  readonly pieces: number;
  readonly hours: Exact;
  readonly standardHours: Exact;
  /** For an hour, with on-costs. */
  readonly labourPerHour: Exact;
  readonly standardLabourPerHour: Exact;
  readonly overheadPerHour: Exact;
  readonly labourCoins: number;
  readonly overheadCoins: number;
  readonly needs: readonly Need[];
  readonly place: Place;
}

/** Needs are held to a millionth of a unit: finer than any tape, and short enough to read. */
export const needPlaces = 6;

/** @param termsOn wage, overhead, and what pieces take, where the row says nothing else */
export function readProduced(book: Book, items: ReadonlyMap<string, Item>, termsOn: TermsOn): ProducedLine[] {
  const { currencyDigits } = book.settings;
  return datedRows(book, 'made').flatMap((row): ProducedLine[] => {
    const item = items.get(sameKey(row.text('product')));
    const pieces = row.number('pieces');
    if (item === undefined || pieces === null) return [];
    const terms = termsOn(row.day);
    const { wage, onCosts } = terms;
    const standardHours = exact(pieces)
      .times(terms.minutesEach.get(sameKey(item.item)) ?? 0)
      .div(60);
    const hours = orExact(row.number('bench_hours'), standardHours);
    const labourPerHour = orExact(row.number('wage_per_hour'), wage).times(onCosts);
    return [
      {
        day: row.day,
        product: item.item,
        pieces,
        hours,
        standardHours,
        labourPerHour,
        standardLabourPerHour: wage.times(onCosts),
        overheadPerHour: terms.overheadPerHour,
        labourCoins: coinsOf(hours.times(labourPerHour), currencyDigits),
        overheadCoins: coinsOf(hours.times(terms.overheadPerHour), currencyDigits),
        needs: (terms.needs.get(sameKey(item.item)) ?? []).map(({ material, quantity }) => ({
          material,
          quantity: quantity.times(pieces).toDecimalPlaces(needPlaces),
        })),
        place: row.place,
      },
    ];
  });
}

function orExact(value: number | null, otherwise: Exact): Exact {
  return value === null ? otherwise : exactOf(value);
}
