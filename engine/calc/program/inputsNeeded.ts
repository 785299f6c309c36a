import type { Plan } from '../../sheets/plan.ts';
import { PlanIndex } from '../../sheets/planIndex.ts';
import type { Values } from '../values.ts';
import type { Slot } from './node.ts';
import { type CellPlace, markNeeded, Slice, variedFacts } from './slice.ts';

/**
 * Which input cells the results depend on, cell by cell: through every formula on the way, once all that is fixed has
 * been worked out. A cell that only may matter (the branch of an IF that is not taken today) counts as one that does.
 *
 * @param values the plan as it was calculated
 * @param varied input or override cells that hold numbers
 * @returns for each varied cell, whether any of the results may move with it
 */
export function inputsNeeded(
  plan: Plan,
  values: Values,
  varied: readonly CellPlace[],
  results: readonly CellPlace[],
): boolean[] {
  const taken = varied.map((place, at): CellPlace & { slot: Slot } => ({
    ...place,
    slot: { row: place.row, facts: variedFacts, needed: false, at, leaves: [] },
  }));
  const slice = new Slice(new PlanIndex(plan), values, taken);
  markNeeded(results.map(({ sheet, column, row }) => slice.cell(sheet, column, row)));
  return taken.map(({ slot }) => slot.needed);
}
