import { type CellPlace, compileProgram } from '../../../calc/program/compileProgram.ts';
import type { Values } from '../../../calc/values.ts';
import type { Plan } from '../../../sheets/plan.ts';
import { followingColumns, heldColumns, type LiveModel, type LiveRow } from './liveModel.ts';
import { liveSliders } from './liveSliders.ts';

/** A calculated plan. */
export interface Calculated {
  readonly plan: Plan;
  readonly values: Values;
}

/** The part of a report that calculates in the page. */
export interface Live {
  readonly model: LiveModel;
  /** JavaScript of a function of the runtime: with today's asking prices on the tickets. */
  readonly heldSource: string;
  /** The same with asking prices that follow their cost. */
  readonly followingSource: string;
}

/**
 * Compiles what the page needs to price the book by itself, from the same plan as everything else. Null where the
 * book has nothing to move.
 *
 * @param today the book as it stands
 * @param held the same with today's asking prices as if set by hand
 * @param following the same with asking prices that all follow their cost
 */
export function livePrograms(today: Calculated, held: Calculated, following: Calculated): Live | null {
  const { sliders, varied, figures } = liveSliders(today.plan);
  const rowCount = today.plan.sheets.find(({ id }) => id === 'prices')?.rowCount ?? 0;
  if (sliders.length === 0 || rowCount === 0) return null;
  const month = today.plan.sheets.some(({ id }) => id === 'month');
  const rows = Array.from({ length: rowCount }, (_, row) => row);
  const places = (columns: readonly string[]): CellPlace[] =>
    rows.flatMap((row) => columns.map((column) => ({ sheet: 'prices', column, row })));
  const profit: CellPlace[] = month ? [{ sheet: 'month', column: 'profit', row: 0 }] : [];
  return {
    model: {
      settings: today.plan.settings,
      sliders,
      figures,
      rows: rows.map((row) => rowOf(today.values, row)),
      monthProfit: month ? today.values.number('month', 'profit', 0) : null,
    },
    heldSource: compileProgram(held.plan, held.values, varied, [...places(heldColumns), ...profit]).source,
    followingSource: compileProgram(following.plan, following.values, varied, places(followingColumns))
      .source,
  };
}

function rowOf(values: Values, row: number): LiveRow {
  const number = (column: string): number => values.number('prices', column, row);
  return {
    product: String(values.get('prices', 'product', row)),
    channel: String(values.get('prices', 'channel', row)),
    asking: number('asking'),
    margin: number('margin'),
    contribution: number('contribution'),
    underFloor: values.get('prices', 'floor_check', row) === 'look',
    setByHand: typeof values.get('prices', 'asking_set', row) === 'number',
  };
}
