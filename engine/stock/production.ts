import { type Book, sameKey } from '../book/book.ts';
import type { Place } from '../book/problem.ts';
import type { Values } from '../calc/values.ts';
import { rowCount, textOf } from '../cutting/supplies.ts';
import { takenByProduct } from '../cutting/takenFromStock.ts';
import { coinsOf, type Exact, exact, exactOf } from '../money/exact.ts';
import type { Plan } from '../sheets/plan.ts';
import { gather } from './gather.ts';
import type { Item } from './items.ts';
import { datedRows } from './rows.ts';

/** What pieces of one row should take of a material, its normal waste with it. */
export interface Need {
  readonly material: string;
  readonly quantity: Exact;
}

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
  readonly labourCoins: number;
  readonly overheadCoins: number;
  readonly needs: readonly Need[];
  readonly place: Place;
}

/** Needs are held to a millionth of a unit: finer than any tape, and short enough to read. */
export const needPlaces = 6;

export function readProduced(
  book: Book,
  plan: Plan,
  values: Values,
  items: ReadonlyMap<string, Item>,
): ProducedLine[] {
  const { currencyDigits } = book.settings;
  const rate = (column: string): Exact => exactOf(values.number('rates', column, 0));
  const onCosts = rate('on_costs_percent').plus(1);
  const wage = rate('wage_per_hour');
  const overheadPerHour = rate('overhead_per_hour');
  const hoursEach = new Map<string, Exact>();
  for (let row = 0; row < rowCount(plan, 'costs'); row += 1) {
    const minutes = exactOf(values.number('costs', 'minutes', row));
    hoursEach.set(sameKey(textOf(values, 'costs', 'product', row)), minutes.div(60));
  }
  const needsOf = needsByProduct(plan, values, items);
  return datedRows(book, 'made').flatMap((row): ProducedLine[] => {
    const item = items.get(sameKey(row.text('product')));
    const pieces = row.number('pieces');
    if (item === undefined || pieces === null) return [];
    const standardHours = exact(pieces).times(hoursEach.get(sameKey(item.item)) ?? 0);
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
        labourCoins: coinsOf(hours.times(labourPerHour), currencyDigits),
        overheadCoins: coinsOf(hours.times(overheadPerHour), currencyDigits),
        needs: (needsOf.get(sameKey(item.item)) ?? []).map(({ material, quantity }) => ({
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

/** What one piece of each product takes, in the order of the materials. */
function needsByProduct(
  plan: Plan,
  values: Values,
  items: ReadonlyMap<string, Item>,
): ReadonlyMap<string, readonly Need[]> {
  const needs = new Map<string, Need[]>();
  for (const [key, quantity] of takenByProduct(plan, values)) {
    const [material = '', product = ''] = key.split('|');
    const item = items.get(material);
    if (item === undefined || quantity === 0) continue;
    gather(needs, product, { material: item.item, quantity: exactOf(quantity) });
  }
  const order = new Map([...items.keys()].map((key, at) => [key, at]));
  for (const each of needs.values())
    each.sort(
      (one, other) => (order.get(sameKey(one.material)) ?? 0) - (order.get(sameKey(other.material)) ?? 0),
    );
  return needs;
}
