import { inputsNeeded } from '../../calc/program/inputsNeeded.ts';
import type { Values } from '../../calc/values.ts';
import type { Plan } from '../../sheets/plan.ts';
import { moveText } from '../alterations.ts';
import { type Mover, placeId } from '../mover.ts';
import type { Alteration } from '../words/change.ts';
import type { FoundResult } from '../words/findResults.ts';
import { Sweep } from './sweep.ts';

/** An input with the two figures that it is tried with. */
export interface TriedInput {
  readonly mover: Mover;
  readonly low: Alteration;
  readonly high: Alteration;
  /** From a table of the book, or the common range. */
  readonly from: 'ranges.csv' | 'range';
}

/** What a result does where one input goes down and up, all others as they are. */
export interface SensitivityLine {
  readonly input: string;
  /** How many cells move. */
  readonly cells: number;
  /** Figure today where it is one cell, as text. */
  readonly today: string;
  readonly from: 'ranges.csv' | 'range';
  readonly low: TriedFigure;
  readonly high: TriedFigure;
  /** Distance between the least and the greatest of today, low and high: what the ranking goes by. */
  readonly effect: number;
}

export interface TriedFigure {
  /** `-10 %`, `18.00` */
  readonly text: string;
  /** Null where the input cannot go there, or the result cannot be calculated then. */
  readonly result: number | null;
}

/**
 * Tries every input by itself and ranks them by what they do to the result.
 *
 * @param today the result as it stands
 * @returns lines of inputs that matter, the greatest effect first; and the names of those on which the result depends,
 * but which move it nowhere within their range (it is rounded in steps), or can go nowhere
 */
export function sensitivityOf(
  plan: Plan,
  values: Values,
  result: FoundResult,
  tried: readonly TriedInput[],
): { readonly today: number; readonly lines: readonly SensitivityLine[]; readonly still: readonly string[] } {
  const today = values.number(result.sheet, result.column, result.row);
  const needed = neededOnly(plan, values, result, tried);
  // One that is blank today has no figure while the others move, so it gets a sweep of its own.
  const blank = needed.filter(({ mover }) => mover.before.includes(null));
  const filled = needed.filter((each) => !blank.includes(each));
  const movers = filled.map(({ mover }) => mover);
  const shared = new Sweep(plan, values, movers, [result]);
  const lines = needed.map((each): SensitivityLine => {
    const sweep = blank.includes(each) ? new Sweep(plan, values, [each.mover], [result]) : shared;
    const figure = (alteration: Alteration): TriedFigure => {
      const value = sweep.at([{ mover: each.mover, alteration }])?.[0] ?? Number.NaN;
      return {
        text: moveText(each.mover, alteration, plan),
        result: Number.isFinite(value) ? value : null,
      };
    };
    const [low, high] = [figure(each.low), figure(each.high)];
    const reached = [today, low.result ?? today, high.result ?? today];
    return {
      input: each.mover.name,
      cells: each.mover.cells.length,
      today: todayOf(each.mover, plan),
      from: each.from,
      low,
      high,
      effect: Math.max(...reached) - Math.min(...reached),
    };
  });
  // What is left of rounding in doubles is no effect.
  const least = 1e-12 * Math.max(1, Math.abs(today));
  const ranked = lines.filter(({ effect }) => effect > least).sort((one, other) => other.effect - one.effect);
  return {
    today,
    lines: ranked,
    still: lines.filter((line) => !ranked.includes(line)).map(({ input }) => input),
  };
}

/** Inputs on which the result depends; of several that mean the same cells of it, one. */
function neededOnly(
  plan: Plan,
  values: Values,
  result: FoundResult,
  tried: readonly TriedInput[],
): readonly TriedInput[] {
  const places = new Map(tried.flatMap(({ mover }) => mover.cells.map((place) => [placeId(place), place])));
  const needed = inputsNeeded(plan, values, [...places.values()], [result]);
  const wanted = new Set([...places.keys()].filter((_, at) => needed[at]));
  const kept = tried.filter(({ mover }) => mover.cells.some((place) => wanted.has(placeId(place))));
  // All cord, where only one cord matters, says the same as that cord: the narrower name stays.
  const seen = new Map<string, TriedInput>();
  for (const each of kept) {
    // What is nothing stays nothing, by whatever share it moves.
    const moving = each.mover.cells.filter(
      (_, at) => each.low.how !== 'percent' || each.mover.before[at] !== 0,
    );
    const id = moving
      .map(placeId)
      .filter((place) => wanted.has(place))
      .sort()
      .join(' ');
    const before = seen.get(id);
    if (before === undefined || narrower(each, before)) seen.set(id, each);
  }
  return kept.filter((each) => [...seen.values()].includes(each));
}

function narrower(one: TriedInput, other: TriedInput): boolean {
  if (one.from !== other.from) return one.from === 'ranges.csv';
  return one.mover.cells.length < other.mover.cells.length;
}

function todayOf(mover: Mover, plan: Plan): string {
  const [only] = mover.before;
  if (mover.cells.length !== 1) return '';
  return typeof only === 'number' ? moveText(mover, { how: 'value', value: only }, plan) : '';
}
