import { dayText } from '../book/measures/day.ts';
import type { NumberKind } from '../book/measures/kinds.ts';
import type { Settings } from '../book/settings.ts';
import { roundTo } from '../money/rounding.ts';

/** Decimal places that a kind of number is shown with. */
export function digitsOf(kind: NumberKind, settings: Settings): number {
  switch (kind) {
    case 'money':
      return settings.currencyDigits;
    case 'money_per_unit':
      return settings.currencyDigits + 2;
    case 'weight':
      return settings.weightUnit === 'g' ? 1 : 2;
    case 'weight_per_unit':
      return settings.weightUnit === 'g' ? 2 : 4;
    case 'count':
    case 'date':
    case 'force':
      return 0;
    case 'percent':
    case 'minutes':
    case 'angle':
      return 1;
    default:
      return 2;
  }
}

/** A number as a person of this book reads it: grouped thousands, the book's decimal mark, a minus sign. */
export function showNumber(value: number, digits: number, settings: Settings): string {
  const [whole = '0', part] = Math.abs(roundTo(value, digits)).toFixed(digits).split('.');
  const comma = settings.decimal === 'comma';
  const grouped = whole.replace(/\B(?=(\d{3})+$)/g, comma ? '.' : ',');
  const text = part === undefined ? grouped : `${grouped}${comma ? ',' : '.'}${part}`;
  return roundTo(value, digits) < 0 ? `-${text}` : text;
}

/** As `showNumber`, without zeros at the end of a fraction: 49, 7.5, 12.25. */
export function showTrimmed(value: number, digits: number, settings: Settings): string {
  const text = showNumber(value, digits, settings);
  return digits === 0 ? text : text.replace(/([.,]\d*?)0+$/, '$1').replace(/[.,]$/, '');
}

/** The value of a cell as text, without its unit: `40.0 %`, `1,234.50`, `bar`. */
export function showValue(
  value: number | string | boolean | null,
  kind: NumberKind,
  settings: Settings,
): string {
  if (typeof value !== 'number') return value === null ? '' : String(value);
  if (kind === 'date') return dayText(value);
  if (kind === 'percent') return `${showNumber(value * 100, digitsOf(kind, settings), settings)} %`;
  return showNumber(value, digitsOf(kind, settings), settings);
}
