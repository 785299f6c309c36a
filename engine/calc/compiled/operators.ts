import { isFailure, type Result } from '../values.ts';
import { compare, failed, failure, finite, toNumber, toText } from './scalar.ts';

/** A formula, or a part of one, prepared: from the row to the value. */
export type Cell = (row: number) => Result;

export function negate(inner: Cell): Cell {
  return (row) => {
    const number = toNumber(inner(row));
    // 0 - x rather than -x: a sheet knows no negative zero.
    return typeof number === 'number' ? 0 - number : number;
  };
}

/** An operator between two prepared parts. */
export function binary(operator: string, left: Cell, right: Cell): Cell {
  switch (operator) {
    case '+':
      return arithmetic(left, right, (one, other) => one + other);
    case '-':
      return arithmetic(left, right, (one, other) => one - other);
    case '*':
      return arithmetic(left, right, (one, other) => one * other);
    case '/':
      return arithmetic(left, right, (one, other) => (other === 0 ? failure.divide : one / other));
    case '^':
      return arithmetic(left, right, (one, other) => one ** other);
    case '&':
      return (row) => {
        const one = toText(left(row));
        if (typeof one !== 'string') return one;
        const other = toText(right(row));
        return typeof other === 'string' ? one + other : other;
      };
    default:
      return comparison(operator, left, right);
  }
}

function arithmetic(left: Cell, right: Cell, compute: (one: number, other: number) => number | Result): Cell {
  return (row) => {
    const one = left(row);
    const other = right(row);
    // Failures pass through before text is refused, the left one first.
    if (failed(one)) return one;
    if (failed(other)) return other;
    const first = toNumber(one);
    if (typeof first !== 'number') return first;
    const second = toNumber(other);
    if (typeof second !== 'number') return second;
    const result = compute(first, second);
    return typeof result === 'number' ? finite(result) : result;
  };
}

function comparison(operator: string, left: Cell, right: Cell): Cell {
  const holds: Readonly<Record<string, (difference: number) => boolean>> = {
    '=': (difference) => difference === 0,
    '<>': (difference) => difference !== 0,
    '<': (difference) => difference < 0,
    '<=': (difference) => difference <= 0,
    '>': (difference) => difference > 0,
    '>=': (difference) => difference >= 0,
  };
  const test = holds[operator];
  if (test === undefined) throw new Error(`No operator ${operator}`);
  return (row) => {
    const one = left(row);
    if (isFailure(one)) return one;
    const other = right(row);
    return isFailure(other) ? other : test(compare(one, other));
  };
}
