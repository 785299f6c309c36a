import { inputsNeeded } from '../../calc/program/inputsNeeded.ts';
import type { Values } from '../../calc/values.ts';
import { type Crossing, crossingsOf } from '../../chance/crossings.ts';
import { roundTo } from '../../money/rounding.ts';
import type { Plan } from '../../sheets/plan.ts';
import { digitsOf } from '../../sheets/showValue.ts';
import { moveText, readMove } from '../alterations.ts';
import type { Mover } from '../mover.ts';
import { type Alteration, altered, type ChangeFault } from '../words/change.ts';
import { isFault } from '../words/findInputs.ts';
import type { FoundResult } from '../words/findResults.ts';
import type { SolveGoal } from '../words/goal.ts';
import { Sweep } from './sweep.ts';

/** An input at which the goal was looked at. */
export interface SolvedPoint {
  /** `24.371503` or `+12.35 %` */
  readonly text: string;
  /** The figure, or the ratio of the change, unrounded. */
  readonly at: number;
  readonly alteration: Alteration;
  readonly result: number;
  readonly wanted: number;
}

/** Where the goal is reached, or jumped over. */
export type Answer =
  /** There, as near as doubles come; and at a figure of usual digits beside it. */
  | { readonly how: 'exact'; readonly point: SolvedPoint; readonly rounded: SolvedPoint | null }
  /** All along between two figures. */
  | { readonly how: 'between'; readonly from: SolvedPoint; readonly to: SolvedPoint }
  /** Rounding jumps over it: the neighbours on either side of the step. */
  | { readonly how: 'step'; readonly atMost: SolvedPoint; readonly atLeast: SolvedPoint };

export interface Solved {
  /** The result moves with the input at all. */
  readonly depends: boolean;
  readonly from: string;
  readonly to: string;
  readonly answers: readonly Answer[];
  /** Where the result less what is wanted is least and greatest in that range; null where nothing can be calculated. */
  readonly least: SolvedPoint | null;
  readonly greatest: SolvedPoint | null;
}

/** So many steps of the range are looked at; two answers within one step may be missed. */
const gridSteps = 1000;
/** Bounds where neither the column nor the question gives any. */
const groupBounds = [-0.95, 4] as const;

/** Where an input may go: figures for one cell, changes by a ratio for several. */
export interface SolveBounds {
  readonly single: boolean;
  readonly from: number;
  readonly to: number;
}

/** Reads `--from` and `--to`; where they are absent, the bounds of the column or what is sensible for it. */
export function boundsOf(
  mover: Mover,
  from: string | undefined,
  to: string | undefined,
  plan: Plan,
): SolveBounds | ChangeFault {
  const single = mover.cells.length === 1;
  const usual = single ? usualBounds(mover) : groupBounds;
  const read = (text: string | undefined, otherwise: number): number | ChangeFault => {
    if (text === undefined) return otherwise;
    const move = readMove(mover.name, text, plan);
    if (isFault(move)) return move;
    if (single) return Number(altered(mover.before[0] ?? null, move.alteration));
    if (move.alteration.how === 'percent') return move.alteration.by;
    return {
      message: `“${mover.name}” means ${mover.cells.length} figures, which move by per cents.`,
      accepted: 'a change such as -30 % or +50 %',
      mend: 'Write the bound with a sign and %.',
    };
  };
  const low = read(from, usual[0]);
  if (typeof low !== 'number') return low;
  const high = read(to, usual[1]);
  if (typeof high !== 'number') return high;
  if (low < high) return { single, from: low, to: high };
  return {
    message: 'The lower bound is not below the upper one.',
    accepted: 'from less than to',
    mend: 'Exchange them, or give both.',
  };
}

function usualBounds({ columns, before }: Mover): readonly [number, number] {
  const { kind, bounds } = columns[0] ?? { kind: 'number', bounds: {} };
  const unit = kind === 'percent' ? 0.01 : 1;
  const today = before[0] ?? 0;
  const least = (bounds.min ?? bounds.above ?? Math.min(0, today / unit)) * unit;
  const given = bounds.max ?? bounds.below;
  const far = kind === 'percent' ? Math.max(1, 4 * today) : 5 * Math.abs(today) || 100;
  // A bound far away would make the grid coarse where the answer is likely to be.
  return [least, given === undefined ? least + far : Math.min(given * unit, least + far)];
}

/** Finds every figure of an input, within bounds, at which a result reaches what is wanted. */
export function solve(
  plan: Plan,
  values: Values,
  mover: Mover,
  goal: SolveGoal,
  bounds: SolveBounds,
): Solved {
  const results: FoundResult[] = [goal.result, ...(typeof goal.wanted === 'number' ? [] : [goal.wanted])];
  const counted = mover.columns[0]?.kind === 'count';
  const sweep = new Sweep(plan, values, [mover], results);
  const alterationAt = (x: number): Alteration =>
    bounds.single ? { how: 'value', value: counted ? Math.round(x) : x } : { how: 'percent', by: x };
  const pointAt = (x: number): SolvedPoint => {
    const alteration = alterationAt(x);
    const [result = Number.NaN, other = Number.NaN] = sweep.at([{ mover, alteration }]) ?? [];
    const wanted = typeof goal.wanted === 'number' ? goal.wanted : other;
    const at = alteration.how === 'value' ? Number(alteration.value) : alteration.by;
    return { text: moveText(mover, alteration, plan), at, alteration, result, wanted };
  };
  const text = (x: number): string => moveText(mover, alterationAt(x), plan);
  const told = { from: text(bounds.from), to: text(bounds.to) };
  const depends = inputsNeeded(plan, values, mover.cells, results).includes(true);
  if (!depends) return { depends, ...told, answers: [], least: null, greatest: null };
  const f = (x: number): number => {
    const { result, wanted } = pointAt(x);
    return result - wanted;
  };
  const scale = Math.max(1, Math.abs(typeof goal.wanted === 'number' ? goal.wanted : 1));
  const scan = crossingsOf(f, gridOf(mover, bounds, counted), scale);
  const answers = scan.crossings.map((each) =>
    answerOf(each, pointAt, (x) => roundedAt(x, mover, bounds, plan)),
  );
  return {
    depends,
    ...told,
    answers,
    least: scan.least === undefined ? null : pointAt(scan.least.at),
    greatest: scan.greatest === undefined ? null : pointAt(scan.greatest.at),
  };
}

/** Even steps, and where the input stands today: there, above all, nothing may be overlooked. */
function gridOf(mover: Mover, { single, from, to }: SolveBounds, counted: boolean): number[] {
  if (counted) {
    const [first, last] = [Math.ceil(from), Math.floor(to)];
    return Array.from(
      { length: Math.max(0, Math.min(last - first, 10 * gridSteps)) + 1 },
      (_, at) => first + at,
    );
  }
  const even = Array.from({ length: gridSteps + 1 }, (_, at) => from + ((to - from) * at) / gridSteps);
  const today = single ? (mover.before[0] ?? from) : 0;
  return [...new Set([...even, ...(today > from && today < to ? [today] : [])])].sort(
    (one, other) => one - other,
  );
}

/** A figure as it would be written: money in coins, per cents to a tenth. */
function roundedAt(x: number, mover: Mover, { single }: SolveBounds, plan: Plan): number {
  const kind = single ? (mover.columns[0]?.kind ?? 'number') : 'percent';
  return kind === 'percent' ? roundTo(x, 3) : roundTo(x, digitsOf(kind, plan.settings));
}

function answerOf(
  crossing: Crossing,
  pointAt: (x: number) => SolvedPoint,
  rounded: (x: number) => number,
): Answer {
  switch (crossing.how) {
    case 'root': {
      const point = pointAt(crossing.at);
      const near = pointAt(rounded(crossing.at));
      return {
        how: 'exact',
        point,
        rounded: near.text === point.text || Number.isNaN(near.result) ? null : near,
      };
    }
    case 'plateau':
      return { how: 'between', from: pointAt(crossing.from), to: pointAt(crossing.to) };
    case 'step': {
      const [before, after] = [pointAt(crossing.before), pointAt(crossing.after)];
      return crossing.valueBefore < crossing.valueAfter
        ? { how: 'step', atMost: before, atLeast: after }
        : { how: 'step', atMost: after, atLeast: before };
    }
  }
}
