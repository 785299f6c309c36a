import { type CellFailure, isFailure, type Result } from '../values.ts';
import { compare, failure, toNumber } from './scalar.ts';

export type Matcher = (value: Result) => boolean;

const operators = ['<>', '<=', '>=', '<', '>', '='] as const;

/**
 * What COUNTIF and its kin look for: a value, or text such as `>5`, `<>well`, `a*` (`*` any letters, `?` one).
 */
export function criterion(wanted: Result): Matcher | CellFailure {
  if (isFailure(wanted)) return wanted;
  if (wanted === null) return failure.value;
  if (typeof wanted === 'number') return (value) => isNumber(value, wanted);
  if (typeof wanted === 'boolean') return (value) => value === wanted;
  const operator = operators.find((each) => wanted.startsWith(each)) ?? '=';
  const operand = wanted.startsWith(operator) ? wanted.slice(operator.length) : wanted;
  if (operand === '') return ofNothing(wanted);
  const number = operand.trim() === '' ? Number.NaN : Number(operand);
  if (!Number.isNaN(number)) {
    if (operator === '=') return (value) => isNumber(value, number);
    if (operator === '<>') return (value) => !isNumber(value, number);
    return (value) => typeof value === 'number' && holds(operator, compare(value, number));
  }
  if (operator === '<>') {
    const same = equals(operand);
    return (value) => !same(value);
  }
  if (operator === '=') return equals(operand);
  return (value) => typeof value === 'string' && holds(operator, compare(value, operand));
}

/** A bare sign: `<>` looks for whatever is there, `=` for blank cells, "" for these and for empty text; the rest find nothing. */
function ofNothing(sign: string): Matcher {
  if (sign === '<>') return (value) => value !== null;
  if (sign === '=') return (value) => value === null;
  return (value) => sign === '' && (value === null || value === '');
}

/** That number, or text that reads as it. */
function isNumber(value: Result, number: number): boolean {
  return value === number || (typeof value === 'string' && value !== '' && toNumber(value) === number);
}

function equals(text: string): Matcher {
  if (!/[*?~]/.test(text)) return (value) => typeof value === 'string' && compare(value, text) === 0;
  const pattern = text.replace(/~([*?~])|[*?]|[.+^${}()|[\]\\]/g, (sign, plain: string | undefined) => {
    if (plain !== undefined) return `\\${plain}`;
    return sign === '*' ? '.*' : sign === '?' ? '.' : `\\${sign}`;
  });
  const whole = new RegExp(`^${pattern}$`, 'isu');
  return (value) => typeof value === 'string' && whole.test(value);
}

function holds(operator: (typeof operators)[number], difference: number): boolean {
  switch (operator) {
    case '<':
      return difference < 0;
    case '<=':
      return difference <= 0;
    case '>':
      return difference > 0;
    case '>=':
      return difference >= 0;
    default:
      return difference === 0;
  }
}
