import type { NumberKind } from '../../book/measures/kinds.ts';
import type { Plan } from '../../sheets/plan.ts';
import { PlanIndex } from '../../sheets/planIndex.ts';
import type { Values } from '../values.ts';
import { figure, Texts } from './encoding.ts';
import { Layout } from './layout.ts';
import { constant, type Leaf, type Slot } from './node.ts';
import { runtime } from './runtime.ts';
import { type CellPlace, markNeeded, Slice, variedFacts } from './slice.ts';
import { writeSource } from './writeSource.ts';

export type { CellPlace } from './slice.ts';

/** Results as functions of some input cells, everything else as it was calculated. */
export interface Program {
  readonly varied: readonly CellPlace[];
  readonly results: readonly CellPlace[];
  /**
   * @param figures the figure of each varied cell, in its column's own unit (a percentage as a ratio)
   * @param out takes the value of each result: a number; 1 or 0 for true or false and for a check that is "well"
   * or "look"; NaN where the cell cannot be calculated, or holds another text or nothing
   */
  run(figures: ArrayLike<number>, out: Float64Array): void;
  /**
   * JavaScript of a function expression `(runtime) => ({ run(figures, out) {…} })`, for a page: the very text that
   * `run` was made from.
   */
  readonly source: string;
  /** How many cells are calculated: those that depend on varied ones and are needed for the results. */
  readonly cellCount: number;
}

/**
 * Compiles a part of a plan to flat code, for sweeps: what does not depend on the varied cells is worked out once,
 * and the rest becomes loops over one array of doubles.
 *
 * @param values the plan as it was calculated
 * @param varied input or override cells that hold numbers; one that is blank counts as a number from here on
 * @param results cells to be calculated
 * @returns a program that gives what `calculate` would give of the plan with those inputs in place
 * Exceptions (faults of ours): a varied cell that is no number of the maker's, or one twice; a cell that the plan
 * has not; a formula that no program can hold, which names the column.
 */
export function compileProgram(
  plan: Plan,
  values: Values,
  varied: readonly CellPlace[],
  results: readonly CellPlace[],
): Program {
  const index = new PlanIndex(plan);
  for (const place of results) existing(index, place);
  refuseUnfit(index, varied);
  const taken = varied.map((place, at): CellPlace & { slot: Slot } => ({
    ...place,
    slot: { row: place.row, facts: variedFacts, needed: false, at, leaves: [] },
  }));
  const slice = new Slice(index, values, taken);
  const leaves = results.map((place) => asResult(slice.cell(place.sheet, place.column, place.row)));
  markNeeded(leaves);
  const groups = slice.groups();
  let cells = varied.length;
  for (const group of groups) {
    for (const slot of group.slots) {
      slot.at = cells;
      cells += 1;
    }
  }
  const layout = new Layout(new Texts(), cells);
  const source = writeSource(groups, leaves, layout, cells, varied.length);
  // Safe, though it makes code of text: the text is ours alone. Names of sheets, columns and keys never enter it,
  // figures enter as literals, and texts of the maker's that are compared in a run as JSON strings, escaped.
  const make = new Function(`return ${source}`)() as (given: typeof runtime) => Pick<Program, 'run'>;
  const { run } = make(runtime);
  return { varied, results, run, source, cellCount: cells - varied.length };
}

/** A result that does not vary is told as its figure, so that no name becomes part of the program. */
function asResult(leaf: Leaf): Leaf {
  return leaf.tag === 'constant' ? constant(figure(new Texts().encode(leaf.value))) : leaf;
}

const notNumbers: ReadonlySet<NumberKind> = new Set(['key', 'text', 'ref', 'choice', 'yes_no', 'formula']);

function refuseUnfit(index: PlanIndex, varied: readonly CellPlace[]): void {
  const seen = new Set<string>();
  for (const place of varied) {
    const column = existing(index, place);
    const name = `${place.sheet}.${place.column}, row ${place.row + 1}`;
    if (column.role !== 'input' && column.role !== 'override') {
      throw new Error(`${name} cannot be varied: its column is ${column.role}, not a figure of the maker's`);
    }
    const before = column.inputs?.[place.row] ?? null;
    if (notNumbers.has(column.kind) || (before !== null && typeof before !== 'number')) {
      throw new Error(`${name} cannot be varied: it holds ${column.kind}, not a number`);
    }
    if (seen.has(name)) throw new Error(`${name} is varied twice`);
    seen.add(name);
  }
}

function existing(index: PlanIndex, place: CellPlace): ReturnType<PlanIndex['column']> {
  const { rowCount } = index.sheet(place.sheet).sheet;
  if (!Number.isInteger(place.row) || place.row < 0 || place.row >= rowCount) {
    throw new Error(`No row ${place.row + 1} in the sheet ${place.sheet}, which has ${rowCount}`);
  }
  return index.column(place.sheet, place.column);
}
