import { calculate } from '../../calc/compiled/calculate.ts';
import { type CellPlace, compileProgram } from '../../calc/program/compileProgram.ts';
import { CannotCompile } from '../../calc/program/slice.ts';
import { isFailure, type Values } from '../../calc/values.ts';
import type { CellValue, Plan } from '../../sheets/plan.ts';
import { withInputs } from '../applyChanges.ts';
import { type Mover, movedBy, placeId } from '../mover.ts';
import type { Alteration } from '../words/change.ts';
import type { FoundResult } from '../words/findResults.ts';

/** One mover and what happens to it. */
export interface Move {
  readonly mover: Mover;
  readonly alteration: Alteration;
}

type Run = (figures: Float64Array, out: Float64Array) => void;

/**
 * Results of a plan as functions of some of its inputs, everything else as it stands: compiled once, for as many
 * figures as one likes. A result that no price can give (fees and margin leave no room) is NaN, as is one that
 * cannot be calculated.
 */
export class Sweep {
  readonly results: readonly FoundResult[];
  readonly #places: ReadonlyMap<string, number>;
  readonly #today: Float64Array;
  readonly #figures: Float64Array;
  readonly #out: Float64Array;
  readonly #guards: readonly (readonly number[])[];
  readonly #run: Run;

  /** @param movers every mover that will be moved; one whose cells are blank is moved each time */
  constructor(plan: Plan, values: Values, movers: readonly Mover[], results: readonly FoundResult[]) {
    const cells = new Map<string, { place: CellPlace; before: number }>();
    for (const mover of movers) {
      for (const [at, place] of mover.cells.entries())
        cells.set(placeId(place), { place, before: mover.before[at] ?? Number.NaN });
    }
    this.results = results;
    this.#places = new Map([...cells.keys()].map((id, at) => [id, at]));
    this.#today = Float64Array.from([...cells.values()], ({ before }) => before);
    this.#figures = this.#today.slice();
    const asked = new Map<string, { place: CellPlace; at: number }>();
    const taken = (place: CellPlace): number => {
      const known = asked.get(placeId(place));
      if (known !== undefined) return known.at;
      asked.set(placeId(place), { place, at: asked.size });
      return asked.size - 1;
    };
    for (const result of results) taken(result);
    this.#guards = results.map((result) => guardsOf(result, plan).map(taken));
    this.#out = new Float64Array(asked.size);
    this.#run = runner(
      plan,
      values,
      [...cells.values()].map(({ place }) => place),
      [...asked.values()].map(({ place }) => place),
    );
    this.#slots = results.map(taken);
  }

  readonly #slots: readonly number[];

  /** The results after these moves, one upon the other; undefined where an input would leave its bounds. */
  at(moves: readonly Move[]): Float64Array | undefined {
    this.#figures.set(this.#today);
    for (const { mover, alteration } of moves) {
      const figures = movedBy(this.#asTheyAre(mover), alteration);
      if (figures === undefined) return undefined;
      this.#put(mover, figures);
    }
    return this.read();
  }

  /** Where the figures of a mover's cells stand, for whoever draws them by the thousand. */
  placesOf(mover: Mover): number[] {
    return mover.cells.map((place) => {
      const at = this.#places.get(placeId(place));
      if (at === undefined) throw new Error(`${placeId(place)} is not among what this sweep moves`);
      return at;
    });
  }

  /** Today's figures in the array from which `read` calculates; the caller may change them there. */
  start(): Float64Array {
    this.#figures.set(this.#today);
    return this.#figures;
  }

  /** The results of the figures as they stand; one array for each call. */
  read(): Float64Array {
    this.#run(this.#figures, this.#out);
    return Float64Array.from(this.#slots, (slot, at) =>
      this.#guards[at]?.some((guard) => this.#out[guard] === 0) ? Number.NaN : this.#out[slot]!,
    );
  }

  #asTheyAre(mover: Mover): Mover {
    const before = this.placesOf(mover).map((at) => {
      const figure = this.#figures[at]!;
      return Number.isNaN(figure) ? null : figure;
    });
    return { ...mover, before };
  }

  #put(mover: Mover, figures: readonly number[]): void {
    for (const [at, place] of this.placesOf(mover).entries()) this.#figures[place] = figures[at]!;
  }
}

/** Checks without which a price, or what follows from it, is none. */
function guardsOf(result: FoundResult, plan: Plan): CellPlace[] {
  const prices = plan.sheets.find(({ id }) => id === 'prices');
  const of = (id: string, row: number): string =>
    String(prices?.columns.find((each) => each.id === id)?.inputs?.[row] ?? '');
  const asking = prices?.columns.find(({ id }) => id === 'asking_set')?.inputs ?? [];
  const priced = new Set(['prices', 'break_even', 'sales_mix', 'month']);
  if (prices === undefined || !priced.has(result.sheet)) return [];
  const sold = soldRows(plan);
  return (
    Array.from({ length: prices.rowCount }, (_, row) => row)
      .filter((row) =>
        result.sheet === 'month'
          ? sold.has(`${of('product', row)}|${of('channel', row)}`.toLowerCase())
          : of('product', row) === result.product && of('channel', row) === result.channel,
      )
      // A price that is set by hand stands, whatever margin was wanted.
      .filter((row) => typeof asking[row] !== 'number')
      .map((row) => ({ sheet: 'prices', column: 'room_check', row }))
  );
}

function soldRows(plan: Plan): ReadonlySet<string> {
  const mix = plan.sheets.find(({ id }) => id === 'sales_mix');
  const inputs = (id: string): readonly CellValue[] =>
    mix?.columns.find((each) => each.id === id)?.inputs ?? [];
  const channels = inputs('channel');
  return new Set(inputs('product').map((product, row) => `${product}|${channels[row]}`.toLowerCase()));
}

function runner(
  plan: Plan,
  values: Values,
  varied: readonly CellPlace[],
  results: readonly CellPlace[],
): Run {
  try {
    const program = compileProgram(plan, values, varied, results);
    return (figures, out) => program.run(figures, out);
  } catch (error) {
    // A formula of the maker's own that no program can hold: the whole plan is calculated each time.
    if (!(error instanceof CannotCompile)) throw error;
    return (figures, out) => {
      const again = calculate(withFigures(plan, varied, figures));
      for (const [at, { sheet, column, row }] of results.entries())
        out[at] = asNumber(again.get(sheet, column, row));
    };
  }
}

function asNumber(value: ReturnType<Values['get']>): number {
  if (isFailure(value)) return Number.NaN;
  if (typeof value === 'number') return value;
  if (value === true || value === 'well') return 1;
  return value === false || value === 'look' ? 0 : Number.NaN;
}

function withFigures(plan: Plan, varied: readonly CellPlace[], figures: Float64Array): Plan {
  const inputs = new Map<string, CellValue[]>();
  for (const [at, { sheet, column, row }] of varied.entries()) {
    const name = `${sheet}.${column}`;
    const before = plan.sheets
      .find(({ id }) => id === sheet)
      ?.columns.find(({ id }) => id === column)?.inputs;
    const values = inputs.get(name) ?? [...(before ?? [])];
    values[row] = figures[at]!;
    inputs.set(name, values);
  }
  return withInputs(plan, inputs);
}
