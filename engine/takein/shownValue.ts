import type { BookValue } from '../book/book.ts';
import type { NumberKind } from '../book/measures/kinds.ts';
import { shiftDecimal } from '../book/measures/numberText.ts';
import type { Settings } from '../book/settings.ts';
import { keptNumber } from './compare/sameValue.ts';
import { plainNumber } from './plainNumber.ts';

/** A value with all its digits, as people of this book write it: what differs must look different. */
export function shownValue(value: BookValue, kind: NumberKind, settings: Settings): string {
  if (value === null) return '';
  if (typeof value === 'string') return value;
  return kind === 'percent'
    ? `${plainNumber(keptNumber(shiftDecimal(keptNumber(value), 2)), settings.decimal)} %`
    : plainNumber(keptNumber(value), settings.decimal);
}
