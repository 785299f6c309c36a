import type { Plan } from '../../sheets/plan.ts';
import { moveText, readMove, sizeOf, withSize } from '../alterations.ts';
import type { Mover } from '../mover.ts';
import type { Alteration, ChangeFault } from '../words/change.ts';
import { isFault } from '../words/findInputs.ts';

/** An input that goes from one figure to another by steps. */
export interface Steps {
  readonly mover: Mover;
  readonly steps: readonly { readonly alteration: Alteration; readonly text: string }[];
}

/** Where no `by` is given, a table has so many steps. */
const usualSteps = 6;
const mostSteps = 200;
const accepted =
  'an input and its range, such as wage = 18..30, wage = 18..30 by 2, cord = -10 %..+20 % by 5 %';

/** Reads `wage = 18..30 by 2` or `cord = -10 %..+20 %`: an end with a sign is a change, one without a new figure. */
export function readSteps(text: string, plan: Plan): Steps | ChangeFault {
  const parts = /^((?:[^[\]=]|\[[^\]]*\])+?)\s*=\s*(.+?)\s*\.\.\.?\s*(.+?)(?:\s+by\s+(.+))?$/i.exec(
    text.trim(),
  );
  const fault = (message: string, mend: string): ChangeFault => ({ message, accepted, mend });
  if (parts === null)
    return fault(
      `“${text}” is no input with a range.`,
      'Write the input, =, and the two ends with .. between them.',
    );
  const [, input = '', first = '', last = '', by] = parts;
  const [from, to] = [
    readMove(input, signedZero(first, last), plan),
    readMove(input, signedZero(last, first), plan),
  ];
  if (isFault(from)) return from;
  if (isFault(to)) return to;
  if (from.alteration.how !== to.alteration.how)
    return fault(
      `“${first}” and “${last}” are of two sorts: one changes the figure, the other is a new one.`,
      'Give both ends a sign, or neither.',
    );
  const [low, high] = [sizeOf(from.alteration), sizeOf(to.alteration)];
  if (low === high) return fault(`“${first}” and “${last}” are the same.`, 'Give two ends that differ.');
  let step = Math.abs(high - low) / usualSteps;
  if (by !== undefined) {
    // A step is a size and has no direction: the sign that its sort asks for is put there.
    const bare = by.replace(/^[+−–-]\s*/, '');
    const read = readMove(input, from.alteration.how === 'value' ? bare : `+${bare}`, plan);
    if (isFault(read)) return read;
    if (read.alteration.how !== from.alteration.how)
      return fault(
        `Steps of “${by}” do not suit ${first}..${last}.`,
        'Give the step in the sort of the ends.',
      );
    step = sizeOf(read.alteration);
  }
  const count = Math.floor(Math.abs(high - low) / step + 1e-9);
  if (!(step > 0) || count > mostSteps)
    return fault(
      `Steps of “${by ?? step}” make too many of ${first}..${last}.`,
      `Give a larger step; up to ${mostSteps} are shown.`,
    );
  const sizes = Array.from(
    { length: count + 1 },
    (_, at) => low + (at * (high - low) * step) / Math.abs(high - low),
  );
  const end = sizes.at(-1) ?? high;
  if (Math.abs(end - high) > 1e-9 * Math.max(1, Math.abs(high))) sizes.push(high);
  else sizes[sizes.length - 1] = high;
  return {
    mover: from.mover,
    steps: sizes.map((size) => {
      const alteration = withSize(from.alteration, tidy(size));
      return { alteration, text: moveText(from.mover, alteration, plan) };
    }),
  };
}

/** `0 %` beside `+20 %` is a change by nothing and not a figure. */
function signedZero(text: string, other: string): string {
  return /^0+(?:[.,]0+)?(?!\d)/.test(text) && /^[+−–-]/.test(other) ? `+${text}` : text;
}

/** Adding up steps leaves dust in the last digits: 0.30000000000000004. */
function tidy(size: number): number {
  return Number(size.toPrecision(12));
}
