import { joinKeys } from '../book/book.ts';
import type { Values } from '../calc/values.ts';
import type { Plan } from '../sheets/plan.ts';
import { rowCount, textOf } from './supplies.ts';

/** What one piece takes of a material, waste with it, by material and product; from the sheets Cuts and Parts. */
export function takenByProduct(plan: Plan, values: Values): ReadonlyMap<string, number> {
  const taken = new Map<string, number>();
  for (const [sheet, material] of [
    ['cuts', 'cord'],
    ['parts', 'material'],
  ] as const) {
    for (let row = 0; row < rowCount(plan, sheet); row += 1) {
      const key = joinKeys([textOf(values, sheet, material, row), textOf(values, sheet, 'product', row)]);
      taken.set(key, (taken.get(key) ?? 0) + values.number(sheet, 'from_stock', row));
    }
  }
  return taken;
}
