import { sameKey } from '../../book/book.ts';
import type { Values } from '../../calc/values.ts';
import type { Plan } from '../../sheets/plan.ts';
import { productCells } from '../cards/productCells.ts';

/** The sheets whose prices stand on lists. */
const sheets = ['prices', 'break_prices'];

/** How many prices on the lists of these channels are under their floor: for the maker, and on no list. */
export function listedUnderFloor(plan: Plan, values: Values, channels: readonly string[]): number {
  const cells = productCells(plan, values);
  const wanted = new Set(channels.map(sameKey));
  return plan.sheets
    .filter(({ id }) => sheets.includes(id))
    .flatMap(({ id, rowCount }) => Array.from({ length: rowCount }, (_, row) => ({ id, row })))
    .filter(
      ({ id, row }) =>
        values.get(id, 'floor_check', row) === 'look' &&
        wanted.has(sameKey(String(values.get(id, 'channel', row)))) &&
        cells.text('products.listed', String(values.get(id, 'product', row))) !== 'no',
    ).length;
}
