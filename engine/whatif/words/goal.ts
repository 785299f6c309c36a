import { readCell } from '../../book/readCell.ts';
import type { Plan } from '../../sheets/plan.ts';
import { showTrimmed, showValue } from '../../sheets/showValue.ts';
import type { ChangeFault } from './change.ts';
import { isFault } from './findInputs.ts';
import { type FoundResult, findResult } from './findResults.ts';

/** What a result is to become: a figure, or another result. */
export interface SolveGoal {
  readonly result: FoundResult;
  readonly wanted: number | FoundResult;
  /** `40 %`, `floor of fob short at stall` */
  readonly text: string;
}

const accepted =
  'a result, =, and a figure or another result, such as margin of <product> at <channel> = 40 %, or asking price of <product> at <channel> = its floor';

/** Reads `margin of fob short at stall = 40 %` or `asking price of fob short at stall = its floor`. */
export function readGoal(text: string, plan: Plan): SolveGoal | ChangeFault {
  const parts = /^((?:[^[\]=]|\[[^\]]*\])+?)\s*=\s*(.+)$/.exec(text.trim());
  if (parts === null)
    return {
      message: `“${text}” does not say what the result is to become.`,
      accepted,
      mend: 'End it with = and a figure.',
    };
  const [, named = '', right = ''] = parts;
  const result = findResult(named, plan);
  if (isFault(result)) return result;
  if (/^[+−-]?[.,]?\d/.test(right)) {
    const wanted = readFigure(right, result, plan);
    return isFault(wanted)
      ? wanted
      : { result, wanted: wanted.value, text: figureOf(wanted.value, result, plan) };
  }
  const other = findResult(right, plan, result);
  if (isFault(other)) return other;
  if (other.kind !== result.kind)
    return {
      message: `${result.name} and ${other.name} are not counted in the same thing.`,
      accepted: 'two results of one kind',
      mend: 'Compare amounts with amounts, and per cents with per cents.',
    };
  return { result, wanted: other, text: other.name };
}

/** A figure as a result of that kind has it: per cents as ratios, lengths in the book's unit. */
export function readFigure(
  text: string,
  { kind }: FoundResult,
  plan: Plan,
): { readonly value: number } | ChangeFault {
  const reading = readCell(text.trim(), { id: 'wanted', kind, required: false }, plan.settings);
  if ('fault' in reading) return reading.fault;
  const value = Number(reading.value);
  // In a table a bare figure is so many per cent; of a goal, 0.4 may well be meant as two fifths.
  if (kind === 'percent' && !/[^\d.,\s+−–-]/.test(text) && value !== 0 && Math.abs(value) < 0.01)
    return {
      message: `“${text.trim()}” would be ${figureOf(value, { kind }, plan)}.`,
      accepted: `${figureOf(value, { kind }, plan)} or ${figureOf(value * 100, { kind }, plan)}`,
      mend: 'Write the sign % after it.',
    };
  return { value };
}

/** A result as its sheet shows it, with further digits where it has them and someone asked for them. */
export function figureOf(value: number, { kind }: Pick<FoundResult, 'kind'>, plan: Plan): string {
  const usual = showValue(value, kind, plan.settings);
  if (kind !== 'percent') return usual;
  return `${showTrimmed(value * 100, 4, plan.settings)} %`;
}
