import { sameKey } from '../book/book.ts';
import type { Values } from '../calc/values.ts';
import { rowCount, textOf } from '../cutting/supplies.ts';
import { type Exact, exactOf } from '../money/exact.ts';
import type { Plan } from '../sheets/plan.ts';

/** Something that can lie in stock, with what the sheets say of it. */
export interface Item {
  readonly item: string;
  readonly kind: 'material' | 'product';
  /** What its quantities are in: the cord unit, or pieces. */
  readonly unit: string;
  /** Landed cost of one by the book's prices, before waste; of a product its unit cost. In the book's currency. */
  readonly standardUnit: Exact;
  /** Materials: what its pack holds, share of tax on buying that is not reclaimed, weight of one where it is known. */
  readonly pack: number;
  readonly unreclaimedTaxRatio: number;
  readonly unitWeight: number | null;
}

/** Materials and products by name, capitals aside. */
export function readItems(plan: Plan, values: Values): ReadonlyMap<string, Item> {
  const items = new Map<string, Item>();
  for (let row = 0; row < rowCount(plan, 'materials'); row += 1) {
    const number = (column: string): number => values.number('materials', column, row);
    const item = textOf(values, 'materials', 'material', row);
    const weight = values.get('materials', 'unit_weight', row);
    items.set(sameKey(item), {
      item,
      kind: 'material',
      unit: textOf(values, 'materials', 'sold_by', row) === 'length' ? plan.settings.cordUnit : 'pieces',
      standardUnit: exactOf(number('landed_pack')).div(exactOf(number('pack'))),
      pack: number('pack'),
      unreclaimedTaxRatio: number('unreclaimed_tax_percent'),
      unitWeight: typeof weight === 'number' ? weight : null,
    });
  }
  for (let row = 0; row < rowCount(plan, 'costs'); row += 1) {
    const item = textOf(values, 'costs', 'product', row);
    if (items.has(sameKey(item))) continue;
    items.set(sameKey(item), {
      item,
      kind: 'product',
      unit: 'pieces',
      standardUnit: exactOf(values.number('costs', 'unit_cost', row)),
      pack: 1,
      unreclaimedTaxRatio: 0,
      unitWeight: null,
    });
  }
  return items;
}
