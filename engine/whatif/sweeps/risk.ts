import type { Values } from '../../calc/values.ts';
import { uniformSeries } from '../../chance/draws.ts';
import { quantileOf } from '../../chance/shapes.ts';
import { correlation, meanAndSpread, percentileOf, ranksOf } from '../../chance/statistics.ts';
import type { Plan, PlanColumn } from '../../sheets/plan.ts';
import { fits } from '../applyChanges.ts';
import type { Mover } from '../mover.ts';
import { altered } from '../words/change.ts';
import type { FoundResult } from '../words/findResults.ts';
import { Sweep } from './sweep.ts';
import { alterationOf, type UncertainInput } from './uncertain.ts';

/** A result, and what it is meant to reach. */
export interface Goal {
  readonly result: FoundResult;
  /** In the result's own unit, a margin as a ratio; null where nothing says what is too little. */
  readonly wanted: number | null;
  /** Costs and hours are missed where they are more. */
  readonly worse: 'less' | 'more';
}

export interface RiskChoice {
  readonly draws: number;
  readonly seed: number;
}

/** How one result comes out over all draws. */
export interface RiskLine {
  readonly result: FoundResult;
  readonly wanted: number | null;
  readonly worse: 'less' | 'more';
  readonly today: number;
  /** Share of draws in which the result is worse than wanted, or no price can give it; null where nothing is wanted. */
  readonly missed: number | null;
  /** Standard error of that share; where it is 0 or 1, how far off it may be with a chance of 95 % (3 / draws). */
  readonly missedError: number | null;
  /** Draws in which the result cannot be calculated; the figures below leave them out. */
  readonly failed: number;
  readonly mean: number;
  readonly spread: number;
  readonly percentiles: Readonly<Record<'p5' | 'p25' | 'p50' | 'p75' | 'p95', number>>;
  /** Inputs that move it, the strongest first. */
  readonly drivers: readonly Driver[];
}

export interface Driver {
  readonly input: string;
  /** Spearman's rank correlation with the result: above 0 where more of it means more of the result. */
  readonly correlation: number;
  /** Its square as a share of the squares of all inputs. */
  readonly share: number;
}

export interface DrawnRisk {
  readonly lines: readonly RiskLine[];
  /** Draws of an input that would have left the bounds of its column, and stopped there. */
  readonly stopped: readonly { readonly input: string; readonly draws: number }[];
}

/** A margin that is wanted is met where it is met but for rounding in doubles. */
const dust = 1e-9;

/**
 * Draws every uncertain input, each independent of the others and one draw for all cells that it names, and calculates
 * the results of each draw. Rows work upon each other in their order, as changes do.
 *
 * @param uncertain at least one
 */
export function riskOf(
  plan: Plan,
  values: Values,
  uncertain: readonly UncertainInput[],
  goals: readonly Goal[],
  { draws, seed }: RiskChoice,
): DrawnRisk {
  const sweep = new Sweep(
    plan,
    values,
    uncertain.map(({ mover }) => mover),
    goals.map(({ result }) => result),
  );
  const series = uniformSeries(seed, uncertain.length, draws);
  const drawn = uncertain.map(({ shape }, at) => series[at]!.map((chance) => quantileOf(shape, chance)));
  const places = uncertain.map(({ mover }) => sweep.placesOf(mover));
  const stopped = uncertain.map(() => 0);
  const outcomes = goals.map(() => new Float64Array(draws));
  for (let draw = 0; draw < draws; draw += 1) {
    const figures = sweep.start();
    for (const [at, range] of uncertain.entries()) {
      const figure = drawn[at]?.[draw] ?? Number.NaN;
      if (put(figures, places[at]!, range, figure)) stopped[at] = stopped[at]! + 1;
    }
    const results = sweep.read();
    for (const [at, outcome] of outcomes.entries()) outcome[draw] = results[at]!;
  }
  const names = uncertain.map(({ input }) => input);
  const ranks = drawn.map(ranksOf);
  return {
    lines: goals.map((goal, at) => ({
      ...lineOf(goal, outcomes[at]!, names, drawn, ranks),
      today: values.number(goal.result.sheet, goal.result.column, goal.result.row),
    })),
    stopped: names.flatMap((input, at) => (stopped[at]! > 0 ? [{ input, draws: stopped[at]! }] : [])),
  };
}

/** Moves the cells of one input; true where a figure had to stop at a bound of its column. */
function put(
  figures: Float64Array,
  places: readonly number[],
  range: UncertainInput,
  drawn: number,
): boolean {
  const alteration = alterationOf(range, drawn);
  let stopped = false;
  for (const [at, place] of places.entries()) {
    const column = range.mover.columns[at];
    const after = Number(altered(figures[place]!, alteration));
    const within =
      column === undefined || fits(after, column) ? after : nearestWithin(after, column, range.mover, at);
    if (within !== after) stopped = true;
    figures[place] = within;
  }
  return stopped;
}

/** The bound that a figure has overstepped; just inside it where the bound itself is not allowed. */
function nearestWithin(after: number, { kind, bounds }: PlanColumn, mover: Mover, at: number): number {
  const unit = kind === 'percent' ? 100 : 1;
  const inside = Math.max(1e-9, Math.abs(mover.before[at] ?? 1) * 1e-6);
  const least = bounds.min ?? (bounds.above === undefined ? undefined : bounds.above + inside * unit);
  const greatest = bounds.max ?? (bounds.below === undefined ? undefined : bounds.below - inside * unit);
  if (least !== undefined && after * unit < least) return least / unit;
  return greatest === undefined ? after : greatest / unit;
}

function lineOf(
  { result, wanted, worse }: Goal,
  outcome: Float64Array,
  names: readonly string[],
  drawn: readonly Float64Array[],
  ranks: readonly Float64Array[],
): Omit<RiskLine, 'today'> {
  const told = outcome.filter((value) => Number.isFinite(value));
  const failed = outcome.length - told.length;
  const missed = wanted === null ? null : countMissed(wanted, worse, told, failed) / outcome.length;
  const sorted = told.slice().sort();
  // Where draws failed, the others are ranked anew.
  const kept = (values: Float64Array): Float64Array =>
    values.filter((_, at) => Number.isFinite(outcome[at]!));
  const inputs = failed === 0 ? ranks : drawn.map((each) => ranksOf(kept(each)));
  return {
    result,
    wanted,
    worse,
    missed,
    missedError: missed === null ? null : errorOf(missed, outcome.length),
    failed,
    ...meanAndSpread(told),
    percentiles: {
      p5: percentileOf(sorted, 0.05),
      p25: percentileOf(sorted, 0.25),
      p50: percentileOf(sorted, 0.5),
      p75: percentileOf(sorted, 0.75),
      p95: percentileOf(sorted, 0.95),
    },
    drivers: driversOf(names, inputs, ranksOf(told), outcome.length),
  };
}

function countMissed(wanted: number, worse: Goal['worse'], told: Float64Array, failed: number): number {
  const allowed = dust * Math.max(1, Math.abs(wanted));
  const misses = (value: number): boolean =>
    worse === 'less' ? value < wanted - allowed : value > wanted + allowed;
  return told.reduce((count, value) => count + (misses(value) ? 1 : 0), failed);
}

function errorOf(missed: number, draws: number): number {
  return missed === 0 || missed === 1 ? 3 / draws : Math.sqrt((missed * (1 - missed)) / draws);
}

function driversOf(
  names: readonly string[],
  inputs: readonly Float64Array[],
  result: Float64Array,
  draws: number,
): Driver[] {
  const found = names.map((input, at) => ({
    input,
    correlation: correlation(inputs[at]!, result),
  }));
  // A correlation that chance alone would show is none: three standard errors of it.
  const seen = found.filter((each) => Math.abs(each.correlation) > 3 / Math.sqrt(draws));
  const squares = seen.reduce((sum, each) => sum + each.correlation ** 2, 0);
  return seen
    .map((each) => ({ ...each, share: each.correlation ** 2 / squares }))
    .sort((one, other) => other.share - one.share);
}
