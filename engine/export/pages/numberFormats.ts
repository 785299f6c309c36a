import type { NumberKind } from '../../book/measures/kinds.ts';
import type { Settings } from '../../book/settings.ts';
import { roundTo } from '../../money/rounding.ts';
import type { PlanColumn } from '../../sheets/plan.ts';
import { digitsOf } from '../../sheets/showValue.ts';

/** Text stays text in a cell of this format, even when `=1+1` is typed into it again. */
export const textFormat = '@';

/** Kinds whose cells hold words. */
export function holdsText(kind: NumberKind): boolean {
  return ['key', 'text', 'ref', 'choice', 'yes_no', 'formula'].includes(kind);
}

/**
 * Air on the right as wide as a w: LibreOffice does not keep numbers an indent away from the next column. An m
 * would do as well, were there no programs that take every format with an m in it for a date.
 */
const gap = '_w';

/**
 * Number format of a kind: grouped thousands, minus for negatives, zero as a dash. One style a column, so
 * that decimals stand under each other; the reader's own program puts in its decimal mark.
 */
export function numberFormat(
  kind: NumberKind,
  settings: Settings,
  digits: number = digitsOf(kind, settings),
): string {
  if (kind === 'date') return 'yyyy-mm-dd';
  const places = digits === 0 ? '' : `.${'0'.repeat(digits)}`;
  const shown = kind === 'percent' ? `0${places} %` : `#,##0${places}`;
  return [shown, `-${shown}`, '–'].map((part) => part + gap).join(';');
}

/** No more decimal places than this are shown for the sake of one figure. */
const mostDigits = 3;

/**
 * Decimal places of a column: those of its kind, or as many as the maker wrote. An eighth of an inch that
 * shows as 0.13 would make its reader doubt every cut.
 */
export function digitsOfColumn(column: PlanColumn, settings: Settings): number {
  // Asked for every cell of the column, and the answer takes a look at them all.
  const known = digitsKnown.get(column);
  if (known !== undefined) return known;
  // A tax or a fee of 8.25 % must not read as 8.3 % where it is carried on.
  const usual = column.kind === 'percent' ? 2 : digitsOf(column.kind, settings);
  const scale = column.kind === 'percent' ? 100 : 1;
  let digits = usual;
  for (const value of column.inputs ?? []) {
    if (typeof value === 'number') digits = Math.max(digits, placesOf(value * scale));
  }
  digitsKnown.set(column, digits);
  return digits;
}

/** A column belongs to one plan, and a plan to one book with its settings. */
const digitsKnown = new WeakMap<PlanColumn, number>();

/** Places that a number needs, or none where it would need too many. */
function placesOf(value: number): number {
  for (let digits = 0; digits <= mostDigits; digits += 1) {
    if (Math.abs(roundTo(value, digits) - value) <= 1e-9 * Math.max(1, Math.abs(value))) return digits;
  }
  return 0;
}
