import type { CellPlace } from '../../engine/calc/program/compileProgram.ts';
import type { Values } from '../../engine/calc/values.ts';
import type { Plan } from '../../engine/sheets/plan.ts';
import { normalFrom, randomFrom } from '../samples/simulate.ts';

/** A question of risk: cells that are uncertain, cells that are asked for, and figures drawn for the uncertain ones. */
export interface Draws {
  readonly varied: readonly CellPlace[];
  readonly results: readonly CellPlace[];
  /** One row of figures a draw. */
  readonly figures: readonly Float64Array[];
  /** Where each group of varied cells begins in a row of figures. */
  readonly from: Readonly<
    Record<'wage' | 'price' | 'waste' | 'takeUp' | 'batch' | 'piece' | 'length', number>
  >;
}

/** Rows of a sheet that is in the plan. */
export function rowsOf(plan: Plan, sheet: string): number[] {
  const found = plan.sheets.find(({ id }) => id === sheet);
  if (found === undefined) throw new Error(`No sheet ${sheet}`);
  return Array.from({ length: found.rowCount }, (_, row) => row);
}

/** Materials that are sold by length: cords and webbing, whose prices move together. */
export function cordRows(plan: Plan, values: Values): number[] {
  return rowsOf(plan, 'materials').filter((row) => values.get('materials', 'sold_by', row) === 'length');
}

/**
 * Draws for the wage, the prices of all cords (one factor), the waste of every material, the take-up of every
 * product and the minutes of every step; asked for is the margin of every product in every channel.
 */
export function riskDraws(plan: Plan, values: Values, count: number, seed = 11): Draws {
  const all = (sheet: string, column: string, rows = rowsOf(plan, sheet)): CellPlace[] =>
    rows.map((row) => ({ sheet, column, row }));
  const groups = {
    wage: all('rates', 'wage_per_hour'),
    price: all('materials', 'pack_price', cordRows(plan, values)),
    waste: all('materials', 'waste_percent'),
    takeUp: all('products', 'take_up_set'),
    batch: all('work', 'minutes_per_batch'),
    piece: all('work', 'minutes_per_piece'),
    length: all('work', 'minutes_per_length'),
  };
  const from: Record<string, number> = {};
  const varied: CellPlace[] = [];
  for (const [name, places] of Object.entries(groups)) {
    from[name] = varied.length;
    varied.push(...places);
  }
  const before = varied.map(({ sheet, column, row }) =>
    values.number(sheet, column === 'take_up_set' ? 'take_up' : column, row),
  );
  const random = randomFrom(seed);
  const normal = normalFrom(random);
  const figures = Array.from({ length: count }, () => {
    const cords = 0.85 + 0.4 * random();
    return Float64Array.from(before, (figure, at) => {
      const { column } = varied[at] ?? { column: '' };
      if (column === 'wage_per_hour') return figure * (0.8 + 0.5 * random());
      if (column === 'pack_price') return figure * cords;
      if (column === 'waste_percent') return Math.min(0.5, Math.abs(figure + 0.02 * normal()));
      if (column === 'take_up_set') return figure * Math.max(0.5, 1 + 0.04 * normal());
      return figure * (0.7 + 0.8 * random());
    });
  });
  return { varied, results: all('prices', 'margin'), figures, from: from as Draws['from'] };
}
