import { type Book, sameKey } from '../book/book.ts';
import type { Values } from '../calc/values.ts';
import { rowCount, textOf } from '../cutting/supplies.ts';
import { takenByProduct } from '../cutting/takenFromStock.ts';
import { type Exact, exactOf } from '../money/exact.ts';
import type { Plan } from '../sheets/plan.ts';
import { gather } from './gather.ts';
import type { Item } from './items.ts';
import { rowsOf } from './rows.ts';

/** What a piece should take of a material, its normal waste with it. */
export interface Need {
  readonly material: string;
  readonly quantity: Exact;
}

/**
 * What the valuation takes where the row of what happened does not say it. The book has these as they are today; a
 * closed month keeps those that it was closed with. Names of products and materials are keys, capitals aside.
 */
export interface Terms {
  /** Money an hour, without on-costs; 1 and the share of on-costs; overhead that an hour takes up. */
  readonly wage: Exact;
  readonly onCosts: Exact;
  readonly overheadPerHour: Exact;
  /** Bench minutes and materials of one piece, by product. */
  readonly minutesEach: ReadonlyMap<string, Exact>;
  readonly needs: ReadonlyMap<string, readonly Need[]>;
  /** Share of tax on buying that is not reclaimed, by material. */
  readonly unreclaimedTax: ReadonlyMap<string, number>;
  /** What one of another currency costs where no day has a rate, by its three letters. */
  readonly exchange: ReadonlyMap<string, Exact>;
}

/** The terms that hold on a day, as spreadsheets count days. */
export type TermsOn = (day: number) => Terms;

/** The terms of a calculated book. */
export function termsOf(book: Book, plan: Plan, values: Values, items: ReadonlyMap<string, Item>): Terms {
  const rate = (column: string): Exact => exactOf(values.number('rates', column, 0));
  const minutesEach = new Map<string, Exact>();
  for (let row = 0; row < rowCount(plan, 'costs'); row += 1) {
    const minutes = exactOf(values.number('costs', 'minutes', row));
    minutesEach.set(sameKey(textOf(values, 'costs', 'product', row)), minutes);
  }
  return {
    wage: rate('wage_per_hour'),
    onCosts: rate('on_costs_percent').plus(1),
    overheadPerHour: rate('overhead_per_hour'),
    minutesEach,
    needs: needsByProduct(plan, values, items),
    unreclaimedTax: new Map([...items].map(([key, { unreclaimedTaxRatio }]) => [key, unreclaimedTaxRatio])),
    exchange: new Map(
      rowsOf(book, 'exchange').flatMap((row) => {
        const one = row.number('rate');
        return one === null ? [] : [[row.text('currency').toUpperCase(), exactOf(one)]];
      }),
    ),
  };
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
