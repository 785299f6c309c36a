import { cordFunctions } from '../../cord/index.ts';
import { roundingRules } from '../roundingRules.ts';
import { type CellFailure, isFailure, type Result } from '../values.ts';
import { criterion, type Matcher } from './criterion.ts';
import { compare, failed, failure, finite, toNumber, toText, toTruth } from './scalar.ts';

/** A prepared argument: its value in a row, and the cells it covers where it is a reference. */
export interface Argument {
  readonly value: (row: number) => Result;
  /** Cells of a reference: one, or a stretch of a column. Undefined where the argument is calculated. */
  readonly cells?: (row: number) => readonly Result[];
}

export type Compiled = (args: readonly Argument[]) => (row: number) => Result;

/** A function of numbers alone. */
function ofNumbers(compute: (...numbers: number[]) => number | CellFailure): Compiled {
  return (args) => (row) => {
    const numbers: number[] = [];
    for (const argument of args) {
      const number = toNumber(argument.value(row));
      if (typeof number !== 'number') return number;
      numbers.push(number);
    }
    const result = compute(...numbers);
    return typeof result === 'number' ? finite(result) : result;
  };
}

/**
 * Numbers of all arguments: cells that hold text, truth or nothing are passed over, calculated arguments must
 * be numbers. The first failure ends it.
 */
function numbersOf(args: readonly Argument[], row: number): number[] | CellFailure {
  const numbers: number[] = [];
  for (const argument of args) {
    if (argument.cells === undefined) {
      const value = argument.value(row);
      if (value === null) continue;
      const number = toNumber(value);
      if (typeof number !== 'number') return number;
      numbers.push(number);
      continue;
    }
    for (const cell of argument.cells(row)) {
      if (typeof cell === 'number') numbers.push(cell);
      else if (failed(cell)) return cell;
    }
  }
  return numbers;
}

function ofAllNumbers(compute: (numbers: readonly number[]) => number | CellFailure): Compiled {
  return (args) => (row) => {
    const numbers = numbersOf(args, row);
    if (!Array.isArray(numbers)) return numbers;
    const result = compute(numbers);
    return typeof result === 'number' ? finite(result) : result;
  };
}

function ofText(compute: (text: string) => Result): Compiled {
  return ([only]) =>
    (row) => {
      const text = toText(only?.value(row) ?? null);
      return typeof text === 'string' ? compute(text) : text;
    };
}

function ofTruths(decides: boolean): Compiled {
  return (args) => (row) => {
    let outcome = !decides;
    for (const argument of args) {
      for (const value of argument.cells?.(row) ?? [argument.value(row)]) {
        const truth = toTruth(value);
        if (typeof truth !== 'boolean') return truth;
        if (truth === decides) outcome = decides;
      }
    }
    return outcome;
  };
}

const cellsOf = (argument: Argument | undefined, row: number): readonly Result[] =>
  argument?.cells?.(row) ?? [argument?.value(row) ?? null];

/** Places at which every pair of cells and criterion matches. */
function matches(pairs: readonly (Argument | undefined)[], row: number): boolean[] | CellFailure {
  let kept: boolean[] | undefined;
  for (let at = 0; at + 1 < pairs.length; at += 2) {
    const cells = cellsOf(pairs[at], row);
    const match: Matcher | CellFailure = criterion(pairs[at + 1]?.value(row) ?? null);
    if (typeof match !== 'function') return match;
    if (kept !== undefined && kept.length !== cells.length) return failure.value;
    const before: boolean[] | undefined = kept;
    kept = cells.map((cell, index) => (before?.[index] ?? true) && match(cell));
  }
  return kept ?? [];
}

function overMatching(
  pick: (args: readonly Argument[]) => {
    over: Argument | undefined;
    pairs: readonly (Argument | undefined)[];
  },
  compute: (numbers: readonly number[]) => number,
): Compiled {
  return (args) => (row) => {
    const { over, pairs } = pick(args);
    const kept = matches(pairs, row);
    if (!Array.isArray(kept)) return kept;
    const cells = cellsOf(over, row);
    if (cells.length !== kept.length) return failure.value;
    const numbers: number[] = [];
    for (const [at, keep] of kept.entries()) {
      const cell = cells[at] ?? null;
      if (!keep) continue;
      if (failed(cell)) return cell;
      if (typeof cell === 'number') numbers.push(cell);
    }
    return finite(compute(numbers));
  };
}

const sum = (numbers: readonly number[]): number => {
  let total = 0;
  for (const each of numbers) total += each;
  return total;
};
const most = (numbers: readonly number[]): number =>
  numbers.reduce((best, each) => Math.max(best, each), numbers[0] ?? 0);
const least = (numbers: readonly number[]): number =>
  numbers.reduce((best, each) => Math.min(best, each), numbers[0] ?? 0);
const firstOverPairs = (args: readonly Argument[]) => ({ over: args[0], pairs: args.slice(1) });

const sumProduct: Compiled = (args) => (row) => {
  const columns = args.map((argument) => cellsOf(argument, row));
  const length = columns[0]!.length;
  if (columns.some((column) => column.length !== length)) return failure.value;
  let total = 0;
  for (let at = 0; at < length; at += 1) {
    let product = 1;
    for (const column of columns) {
      const cell = column[at] ?? null;
      if (failed(cell)) return cell;
      product *= typeof cell === 'number' ? cell : cell === true ? 1 : 0;
    }
    total += product;
  }
  return finite(total);
};

const choose: Compiled =
  ([condition, yes, no]) =>
  (row) => {
    const truth = toTruth(condition?.value(row) ?? null);
    if (typeof truth !== 'boolean') return truth;
    return (truth ? yes : no)?.value(row) ?? null;
  };

const switched: Compiled =
  ([subject, ...rest]) =>
  (row) => {
    const value = subject?.value(row) ?? null;
    if (isFailure(value)) return value;
    for (let at = 0; at + 1 < rest.length; at += 2) {
      const candidate = rest[at]?.value(row) ?? null;
      if (isFailure(candidate)) return candidate;
      if (compare(value, candidate) === 0) return rest[at + 1]?.value(row) ?? null;
    }
    return rest.length % 2 === 1 ? (rest.at(-1)?.value(row) ?? null) : failure.missing;
  };

const unless =
  (isCaught: (value: CellFailure) => boolean): Compiled =>
  ([first, instead]) =>
  (row) => {
    const value = first?.value(row) ?? null;
    return isFailure(value) && isCaught(value) ? (instead?.value(row) ?? null) : value;
  };

const kindOf =
  (kind: 'number' | 'string'): Compiled =>
  ([only]) =>
  (row) =>
    typeof (only?.value(row) ?? null) === kind;

const roundings: [string, Compiled][] = Object.entries(roundingRules).map(([name, rule]) => [
  name,
  ofNumbers((x, second = 0) => {
    const rounded = rule(x, second);
    return typeof rounded === 'number' ? rounded : failure[rounded];
  }),
]);

/** Every function of the sheet language for the compiled path. */
export const compiledFunctions: ReadonlyMap<string, Compiled> = new Map<string, Compiled>([
  ['ABS', ofNumbers(Math.abs)],
  ['AND', ofTruths(false)],
  [
    'AVERAGE',
    ofAllNumbers((numbers) => (numbers.length === 0 ? failure.divide : sum(numbers) / numbers.length)),
  ],
  ['COS', ofNumbers(Math.cos)],
  [
    'COUNT',
    (args) => (row) =>
      args.reduce(
        (total, argument) =>
          total +
          (argument.cells === undefined
            ? Number(typeof toNumber(argument.value(row)) === 'number')
            : argument.cells(row).filter((cell) => typeof cell === 'number').length),
        0,
      ),
  ],
  [
    'COUNTA',
    (args) => (row) =>
      args.reduce(
        (total, argument) => total + cellsOf(argument, row).filter((cell) => cell !== null).length,
        0,
      ),
  ],
  ['COUNTIF', (args) => (row) => countMatches(args, row)],
  ['COUNTIFS', (args) => (row) => countMatches(args, row)],
  ['EXP', ofNumbers(Math.exp)],
  ['IF', choose],
  ['IFERROR', unless(() => true)],
  ['IFNA', unless((value) => value.error === failure.missing.error)],
  ['ISNUMBER', kindOf('number')],
  ['ISTEXT', kindOf('string')],
  ['LEN', ofText((text) => text.length)],
  ['LN', ofNumbers((x) => (x > 0 ? Math.log(x) : failure.number))],
  ['LOWER', ofText((text) => text.toLowerCase())],
  ['MAX', ofAllNumbers(most)],
  ['MAXIFS', overMatching(firstOverPairs, most)],
  ['MIN', ofAllNumbers(least)],
  ['MINIFS', overMatching(firstOverPairs, least)],
  [
    'NOT',
    ([only]) =>
      (row) => {
        const truth = toTruth(only?.value(row) ?? null);
        return typeof truth === 'boolean' ? !truth : truth;
      },
  ],
  ['OR', ofTruths(true)],
  ['PI', () => () => Math.PI],
  ['RADIANS', ofNumbers((degrees) => degrees * (Math.PI / 180))],
  ['SIN', ofNumbers(Math.sin)],
  ['SQRT', ofNumbers(Math.sqrt)],
  ['SUM', ofAllNumbers(sum)],
  ['SUMIF', overMatching((args) => ({ over: args[2] ?? args[0], pairs: args.slice(0, 2) }), sum)],
  ['SUMIFS', overMatching(firstOverPairs, sum)],
  ['SUMPRODUCT', sumProduct],
  ['SWITCH', switched],
  ['TAN', ofNumbers(Math.tan)],
  ['UPPER', ofText((text) => text.toUpperCase())],
  ...roundings,
  ...cordFunctions.map((cord): [string, Compiled] => [
    cord.name,
    ofNumbers((...numbers) => cord.compute(...numbers)),
  ]),
]);

function countMatches(args: readonly Argument[], row: number): Result {
  const kept = matches(args, row);
  return Array.isArray(kept) ? kept.filter(Boolean).length : kept;
}
