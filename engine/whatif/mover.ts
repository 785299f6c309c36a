import type { CellPlace } from '../calc/program/compileProgram.ts';
import type { Plan, PlanColumn } from '../sheets/plan.ts';
import { PlanIndex } from '../sheets/planIndex.ts';
import { fits } from './applyChanges.ts';
import { type Alteration, altered, type ChangeFault, type InputCells } from './words/change.ts';
import { type FoundInputs, findInputs, isFault } from './words/findInputs.ts';

/** Input cells that move as one: what a word such as `wage` or `cord` stands for. */
export interface Mover {
  /** As a maker says it, in words that name it again. */
  readonly name: string;
  readonly cells: readonly CellPlace[];
  /** The figure of each cell today, in its column's own unit; null where it is blank. */
  readonly before: readonly (number | null)[];
  readonly columns: readonly PlanColumn[];
}

/** The cells as one mover. */
export function moverOf(name: string, cells: readonly InputCells[], plan: Plan): Mover {
  const index = new PlanIndex(plan);
  const places = cells.flatMap(({ sheet, column, rows }) => rows.map((row) => ({ sheet, column, row })));
  const columns = places.map(({ sheet, column }) => index.column(sheet, column));
  const before = places.map(({ row }, at) => {
    const value = columns[at]?.inputs?.[row] ?? null;
    return typeof value === 'number' ? value : null;
  });
  return { name, cells: places, before, columns };
}

/** What a text names, with everything that moves along; blank cells have nothing that could move. */
export function findMover(text: string, plan: Plan): Mover | ChangeFault {
  const found = findInputs(text, plan);
  return isFault(found) ? found : asMover(text, found, plan);
}

function asMover(name: string, { cells, along }: FoundInputs, plan: Plan): Mover | ChangeFault {
  const all = moverOf(name, [...cells, ...along], plan);
  if (all.columns.some(({ kind }) => wordKinds.has(kind)))
    return {
      message: `“${name}” holds words, which cannot go up or down.`,
      accepted: 'an input that is a number',
      mend: 'Name a figure, such as wage or the price of a cord.',
    };
  const kept = all.before.flatMap((each, at) => (each === null ? [] : [at]));
  // One blank cell may still be given a figure; of several, those that have one are meant.
  if (kept.length === 0 && all.cells.length > 1)
    return {
      message: `“${name}” is blank in this book, so there is nothing to go up or down.`,
      accepted: 'an input with a figure',
      mend: 'Write a figure into the table first.',
    };
  return kept.length === 0 ? all : only(all, kept);
}

/** Some of a mover's cells, by their places in it. */
export function only(mover: Mover, kept: readonly number[]): Mover {
  const some = <T>(list: readonly T[]): T[] => kept.flatMap((at) => list.slice(at, at + 1));
  return {
    name: mover.name,
    cells: some(mover.cells),
    before: some(mover.before),
    columns: some(mover.columns),
  };
}

export const wordKinds: ReadonlySet<PlanColumn['kind']> = new Set([
  'key',
  'text',
  'ref',
  'choice',
  'yes_no',
  'formula',
]);

/** The figures of a mover's cells after an alteration; undefined where one would leave the bounds of its column. */
export function movedBy(mover: Mover, alteration: Alteration): number[] | undefined {
  const figures: number[] = [];
  for (const [at, before] of mover.before.entries()) {
    const column = mover.columns[at];
    const after = altered(before, alteration);
    if (column === undefined || typeof after !== 'number' || !fits(after, column)) return undefined;
    figures.push(after);
  }
  return figures;
}

/** Names a cell within a plan. */
export function placeId({ sheet, column, row }: CellPlace): string {
  return `${sheet}.${column}.${row}`;
}
