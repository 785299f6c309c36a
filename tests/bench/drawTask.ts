import { HyperFormula } from 'hyperformula';
import { registerCords } from '../../engine/calc/cordPlugin.ts';
import { engineCells } from '../../engine/calc/evaluate.ts';
import { type CellPlace, compileProgram } from '../../engine/calc/program/compileProgram.ts';
import { registerRounding } from '../../engine/calc/roundingPlugin.ts';
import type { Values } from '../../engine/calc/values.ts';
import { cellAddress, engineRow } from '../../engine/sheets/address.ts';
import type { Plan } from '../../engine/sheets/plan.ts';
import { PlanIndex } from '../../engine/sheets/planIndex.ts';
import { riskDraws } from './draws.ts';
import { engineOptions } from './engineOptions.ts';
import { handWritten } from './handWritten.ts';

const median = (numbers: readonly number[]): number =>
  [...numbers].sort((one, other) => one - other)[Math.floor(numbers.length / 2)] ?? 0;

/** What a sweep over one book takes, three ways; milliseconds for all draws but `compileMs`. */
export interface DrawTimes {
  readonly varied: number;
  readonly results: number;
  readonly cells: number;
  readonly compileMs: number;
  readonly programMs: number;
  readonly handMs: number;
  readonly engineMs: number;
  readonly engineDraws: number;
}

/**
 * Runs the same draws through a compiled program, through loops written by hand and through hyperformula (a few
 * draws, scaled), and checks that all three say the same.
 */
export function timeDraws(
  plan: Plan,
  values: Values,
  count: number,
  engineDraws: number,
  rounds = 5,
): DrawTimes {
  const { varied, results, figures, from } = riskDraws(plan, values, count);
  const start = performance.now();
  const program = compileProgram(plan, values, varied, results);
  const compileMs = performance.now() - start;
  const byHand = handWritten(plan, values, { varied, results, figures, from });
  const ours = new Float64Array(results.length);
  const theirs = new Float64Array(results.length);
  const programTimes: number[] = [];
  const handTimes: number[] = [];
  // In turn, so that a slow moment of the machine hits both.
  for (let round = 0; round < rounds; round += 1) {
    programTimes.push(timed(() => figures.forEach((each) => void program.run(each, ours))));
    handTimes.push(timed(() => figures.forEach((each) => void byHand(each, theirs))));
    agree(ours, theirs);
  }
  const engine = new Engine(plan);
  const few = figures.slice(0, engineDraws);
  const engineMs = few.reduce((sum, each) => {
    const ms = timed(() => engine.run(varied, each, results, theirs));
    program.run(each, ours);
    agree(ours, theirs);
    return sum + ms;
  }, 0);
  return {
    varied: varied.length,
    results: results.length,
    cells: program.cellCount,
    compileMs,
    programMs: median(programTimes),
    handMs: median(handTimes),
    engineMs: (engineMs / few.length) * count,
    engineDraws: few.length,
  };
}

function timed(task: () => void): number {
  const start = performance.now();
  task();
  return performance.now() - start;
}

function agree(one: Float64Array, other: Float64Array): void {
  for (const [at, figure] of one.entries()) {
    if (!(Math.abs(figure - (other[at] ?? Number.NaN)) < 1e-9)) {
      throw new Error(`Result ${at}: ${figure} against ${other[at]}`);
    }
  }
}

/** The reference engine with the book in it, changed draw by draw as its guide tells: in one batch. */
class Engine {
  readonly #index: PlanIndex;
  readonly #engine: HyperFormula;

  constructor(plan: Plan) {
    registerRounding();
    registerCords();
    this.#index = new PlanIndex(plan);
    this.#engine = HyperFormula.buildFromSheets(engineCells(this.#index), engineOptions);
  }

  run(
    varied: readonly CellPlace[],
    figures: Float64Array,
    results: readonly CellPlace[],
    out: Float64Array,
  ): void {
    this.#engine.batch(() => {
      for (const [at, place] of varied.entries()) {
        this.#engine.setCellContents(this.#address(place), figures[at] ?? null);
      }
    });
    for (const [at, place] of results.entries()) {
      out[at] = Number(this.#engine.getCellValue(this.#address(place)));
    }
  }

  #address(place: CellPlace): { sheet: number; col: number; row: number } {
    const { sheet, columns } = this.#index.sheet(place.sheet);
    const at = columns.get(place.column)?.at ?? 0;
    const { column, row } = cellAddress(sheet, at, engineRow(sheet, place.row));
    return { sheet: this.#engine.getSheetId(place.sheet) ?? 0, col: column, row: row - 1 };
  }
}
