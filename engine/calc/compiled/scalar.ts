import type { CellFailure, Result } from '../values.ts';

/*
 * How values become numbers, text and truth, and how they compare: as the reference engine does it
 * (hyperformula 3.5, measured case by case; `tests/calc/compiled.test.ts` holds the two equal).
 */

/** The failures that a formula can end in. */
export const failure: Readonly<Record<'divide' | 'number' | 'value' | 'missing', CellFailure>> =
  Object.freeze({
    divide: Object.freeze({ error: '#DIV/0!' }),
    number: Object.freeze({ error: '#NUM!' }),
    value: Object.freeze({ error: '#VALUE!' }),
    missing: Object.freeze({ error: '#N/A' }),
  });

export function failed(value: Result): value is CellFailure {
  return typeof value === 'object' && value !== null;
}

const numeric = /^\s*[+-]?(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d+)?\s*(%?)\s*$/i;

/** A value where a number is wanted: blank and "" are 0, TRUE is 1, text counts where it reads as a number. */
export function toNumber(value: Result): number | CellFailure {
  if (typeof value === 'number') return value;
  if (value === null) return 0;
  if (typeof value === 'boolean') return value ? 1 : 0;
  if (typeof value === 'object') return value;
  if (value === '') return 0;
  const read = numeric.exec(value);
  if (read === null) return failure.value;
  return read[1] === '%' ? Number(value.replace('%', '')) / 100 : Number(value);
}

/** A value where a condition is wanted: text is none, except that "" counts as false. */
export function toTruth(value: Result): boolean | CellFailure {
  if (typeof value === 'boolean') return value;
  if (typeof value === 'number') return value !== 0;
  if (value === null || value === '') return false;
  if (typeof value === 'string') {
    const word = value.toLowerCase();
    return word === 'true' ? true : word === 'false' ? false : failure.value;
  }
  return value;
}

export function toText(value: Result): string | CellFailure {
  if (typeof value === 'string') return value;
  if (value === null) return '';
  if (typeof value === 'boolean') return value ? 'TRUE' : 'FALSE';
  if (typeof value === 'number') return String(value);
  return value;
}

/** A finite number, or the failure of one that has left the range of a double. */
export function finite(value: number): number | CellFailure {
  return Number.isFinite(value) ? value : failure.number;
}

const rank = (value: number | string | boolean): number =>
  typeof value === 'number' ? 0 : typeof value === 'string' ? 1 : 2;

/** Compares text as the reference engine does: without regard to capitals, with regard to accents. */
const collator: Intl.Collator = new Intl.Collator('en', { sensitivity: 'accent', caseFirst: 'lower' });

/** Below, equal or above 0; numbers before text before truth; a blank is whatever it is compared with. */
export function compare(
  left: number | string | boolean | null,
  right: number | string | boolean | null,
): number {
  const one = left ?? blankLike(right);
  const other = right ?? blankLike(left);
  if (typeof one === 'string' && typeof other === 'string') return collator.compare(one, other);
  if (typeof one === typeof other) return Number(one) - Number(other);
  return rank(one) - rank(other);
}

function blankLike(other: number | string | boolean | null): number | string | boolean {
  if (typeof other === 'string') return '';
  return typeof other === 'boolean' ? false : 0;
}
