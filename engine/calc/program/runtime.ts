import { joinKeys } from '../../book/book.ts';
import { cordFunctions } from '../../cord/index.ts';
import { criterion } from '../compiled/criterion.ts';
import { type Argument, compiledFunctions } from '../compiled/functions.ts';
import { binary } from '../compiled/operators.ts';
import { toNumber, toTruth } from '../compiled/scalar.ts';
import { roundingRules } from '../roundingRules.ts';
import { figure, missing, numberLimit, Texts } from './encoding.ts';

type Numbers = ArrayLike<number>;

/** A value where a number is wanted. */
function number(x: number, texts: Texts): number {
  if (x < numberLimit) return x;
  const read = toNumber(texts.decode(x));
  return typeof read === 'number' ? read : Number.NaN;
}

/** A value where a condition is wanted: 1, 0, or NaN. */
function truth(x: number, texts: Texts): number {
  const read = toTruth(texts.decode(x));
  return typeof read === 'boolean' ? Number(read) : Number.NaN;
}

/** What a cell adds to a sum: text, truth and blanks are passed over. */
function summand(x: number): number {
  if (x < numberLimit) return x;
  return x === missing || Number.isNaN(x) ? Number.NaN : 0;
}

function power(base: number, exponent: number): number {
  // In JavaScript NaN ** 0 is 1, and a failure to any power is one still.
  return Number.isNaN(base) || Number.isNaN(exponent) ? Number.NaN : base ** exponent;
}

type Match = (x: number) => boolean;

/** Tests by criterion, each made once; what they say of a text that is known beforehand is remembered. */
function matchers(texts: Texts): (wanted: number) => Match {
  const made = new Map<number, Match>();
  return (wanted) => {
    const before = made.get(wanted);
    if (before !== undefined) return before;
    const match = criterion(texts.decode(wanted));
    if (typeof match !== 'function') throw new Error('A criterion that fails is no criterion');
    const said = new Map<number, boolean>();
    const test = (x: number): boolean => {
      if (!texts.isFixed(x)) return match(texts.decode(x));
      const known = said.get(x);
      if (known !== undefined) return known;
      const found = match(texts.decode(x));
      said.set(x, found);
      return found;
    };
    made.set(wanted, test);
    return test;
  };
}

/** Two texts put together. */
function join(one: number, other: number, texts: Texts): number {
  return texts.encode(
    binary(
      '&',
      () => texts.decode(one),
      () => texts.decode(other),
    )(0),
  );
}

/**
 * Any function of the sheet language over encoded values, by its compiled form: what flat code does not spell out.
 *
 * @param args a double for a calculated argument, a stretch of them for cells
 */
function general(name: string, texts: Texts, args: readonly (number | Numbers)[]): number {
  const compiled = compiledFunctions.get(name);
  if (compiled === undefined) throw new Error(`${name} has no compiled form`);
  const prepared = args.map((argument): Argument => {
    if (typeof argument === 'number') {
      const value = texts.decode(argument);
      return { value: () => value };
    }
    const cells = Array.from(argument, (each) => texts.decode(each));
    return { value: () => cells[0] ?? null, cells: () => cells };
  });
  return texts.encode(compiled(prepared)(0));
}

/** The cells at these slots. */
function gather(slots: Numbers, at: Numbers, from: number, to: number): number[] {
  const cells: number[] = [];
  for (let k = from; k < to; k += 1) cells.push(slots[at[k]!]!);
  return cells;
}

/** The cell in the last row whose keys are these; rows that share a key do not occur but in tables that allow it. */
function lookUp(texts: Texts, targets: Numbers, rowKeys: Numbers, keys: readonly number[]): number {
  const wanted = keys.map((key) => texts.decode(key));
  if (wanted.some((key) => key === null || typeof key === 'object')) return missing;
  const text = joinKeys(wanted.map((key) => String(key)));
  for (let row = targets.length - 1; row >= 0; row -= 1) {
    const own = keys.map((_, at) => texts.decode(rowKeys[row * keys.length + at]!));
    if (joinKeys(own.map((key) => (key === null ? null : String(key)))) === text) {
      return targets[row]!;
    }
  }
  return missing;
}

/** Outside its bounds a rounding fails, as in a sheet. */
const numeric =
  (rule: (x: number, second: number) => number | string) =>
  (x: number, second: number): number => {
    const rounded = rule(x, second);
    return typeof rounded === 'number' ? rounded : Number.NaN;
  };

/**
 * These always give a number for a number, and NaN for NaN; code calls the rule itself, and need not ask whether
 * what it rounds has failed.
 */
export const totalRoundings: readonly string[] = ['ROUND', 'ROUNDUP', 'ROUNDDOWN', 'TRUNC', 'INT'];

/**
 * Everything that the source of a program calls, in one object that knows nothing of Node or of a plan, so that a
 * page can carry it: rounding and cord functions under their names in the sheet language, and what reads values
 * that are not numbers.
 */
export const runtime: Readonly<Record<string, (...args: never[]) => unknown>> = Object.freeze({
  texts: (fixed: readonly string[]) => new Texts(fixed),
  number,
  truth,
  summand,
  figure,
  power,
  matchers,
  join,
  general,
  gather,
  lookUp,
  compare: (one: number, other: number, texts: Texts) => texts.compare(one, other),
  ...Object.fromEntries(
    Object.entries(roundingRules).map(([name, rule]) => [
      name,
      totalRoundings.includes(name) ? rule : numeric(rule),
    ]),
  ),
  ...Object.fromEntries(cordFunctions.map((cord) => [cord.name, cord.compute])),
});
