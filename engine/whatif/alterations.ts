import type { Plan } from '../sheets/plan.ts';
import { showTrimmed, showValue } from '../sheets/showValue.ts';
import { type Mover, moverOf } from './mover.ts';
import type { Alteration, ChangeFault } from './words/change.ts';
import { isFault } from './words/findInputs.ts';
import { parseChange } from './words/parseChange.ts';

/** A mover and what would happen to it. */
export interface ReadMove {
  readonly mover: Mover;
  readonly alteration: Alteration;
}

/**
 * Reads what happens to an input from a text of its own: `+12 %`, `-5 %`, `+2 points`, `+1.50` change it, and anything
 * without a sign is a new figure.
 */
export function readMove(input: string, text: string, plan: Plan): ReadMove | ChangeFault {
  const plain = text.trim();
  const signed = /^[+−–-]|^(?:up|down|plus|minus)\b/i.test(plain);
  const change = parseChange(signed ? `${input} ${plain}` : `${input} = ${plain}`, plan);
  if (isFault(change)) {
    const unsigned =
      !signed && /(?:%|per ?cent|points?)$/i.test(plain) && !isFault(parseChange(`${input} +${plain}`, plan));
    if (!unsigned) return change;
    return {
      message: `“${plain}” has no sign, so it would be a new figure of ${input}.`,
      accepted: `+${plain} or -${plain}`,
      mend: 'Write the sign before it.',
    };
  }
  const mover = moverOf(input, change.cells, plan);
  if (change.alteration.how === 'value' && typeof change.alteration.value !== 'number')
    return {
      message: `“${input}” holds words, which have no range.`,
      accepted: 'an input that is a number',
      mend: 'Name a figure, such as wage or the price of a cord.',
    };
  return { mover, alteration: change.alteration };
}

/** The number that an alteration is known by: a ratio, an amount, or the new figure. */
export function sizeOf(alteration: Alteration): number {
  return alteration.how === 'value' ? Number(alteration.value) : alteration.by;
}

/** An alteration of the same sort with another number. */
export function withSize(alteration: Alteration, size: number): Alteration {
  return alteration.how === 'value' ? { how: 'value', value: size } : { how: alteration.how, by: size };
}

/** `+12 %`, `-0.05`, `+2 points`, `24.50`: as `readMove` reads it. */
export function moveText(mover: Mover, alteration: Alteration, plan: Plan): string {
  const { settings } = plan;
  const kind = mover.columns[0]?.kind ?? 'number';
  if (alteration.how === 'value') return figureText(Number(alteration.value), mover, plan);
  const sign = alteration.by < 0 ? '' : '+';
  if (alteration.how === 'percent') return `${sign}${showTrimmed(alteration.by * 100, 4, settings)} %`;
  if (kind === 'percent') return `${sign}${showTrimmed(alteration.by * 100, 4, settings)} points`;
  return `${sign}${figureText(alteration.by, mover, plan)}`;
}

/** A figure as a table of the book has it: money in coins where that says it all, else the digits it has. */
export function figureText(value: number, mover: Mover, plan: Plan): string {
  const kind = mover.columns[0]?.kind ?? 'number';
  const { settings } = plan;
  if (kind === 'percent') return `${showTrimmed(value * 100, 4, settings)} %`;
  const fine = showTrimmed(value, 6, settings);
  if (kind !== 'money') return fine;
  const coins = showValue(value, kind, settings);
  return coins.length > fine.length ? coins : fine;
}
