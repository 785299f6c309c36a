import { Decimal } from 'decimal.js';

/*
 * Rounding as a spreadsheet program does it, on doubles.
 *
 * A double such as 4.35 * 100 holds 434.99999999999994 where the maker meant 435; so before its last digits
 * may decide anything a value is held to fewer significant digits. How many, is a measured fact. LibreOffice
 * 7.4.7 computed 520,000 cells (ties, products and values up to 20 units in the last place beside a tie or a
 * whole multiple, up to 10^10, 13 ways to call these functions). With these rules they agree:
 *
 * - ROUND: 15 digits, taken after half a unit was added. At 0 digits none are taken: the double decides.
 * - INT, CEILING, FLOOR, MOD: 15 digits (of the quotient, where there is a step).
 * - MROUND: none; the double that x / step gives decides, so MROUND(1.025, 0.05) is 1.00.
 * - ROUNDUP, ROUNDDOWN, TRUNC: 12 digits.
 *
 * Two differences are wanted. LibreOffice stops at 12 digits even where whole units are lost by it
 * (ROUNDDOWN(1234567890.999, 0) gives ...891): we keep three places more than were asked for. And its MOD
 * is an error where noise of 8 units in the last place or more hides a whole multiple: ours is 0.
 *
 * All take finite numbers and return finite ones, never -0; none throws. Units are the caller's.
 */

/** Where a tie goes: away from zero, as on paper and in spreadsheets, or to the even digit. */
export type RoundingMode = 'half-away' | 'half-even';

// A copy of our own: no other user of decimal.js can change its precision. Products of two doubles fit.
const Exact = Decimal.clone({ precision: 60 });

/** Decimal digits that every double carries faithfully (IEEE 754 binary64, DBL_DIG). */
const FAITHFUL_DIGITS = 15;
const CAUTIOUS_DIGITS = 12;
/** 10^22 is the largest power of ten that a double holds exactly. */
const LARGEST_EXACT_POWER = 22;
/** From here on neighbouring doubles are 1 apart or more: no fraction is left to round. */
const ALL_WHOLE = 2 ** 52;
const POWERS: readonly number[] = Object.freeze(
  Array.from({ length: LARGEST_EXACT_POWER + 1 }, (_, exponent) => Number(`1e${exponent}`)),
);

const power = (exponent: number): number => POWERS[exponent] ?? Number(`1e${exponent}`);

/** Digits before the decimal point: 3 for 123.4, 0 for 0.4, -1 for 0.04. */
const leadingDigits = (size: number): number => Math.floor(Math.log10(size)) + 1;

/** `size` (not negative) held to so many significant digits; unchanged where scaling would overflow. */
function held(size: number, digits: number): number {
  const exponent = digits - leadingDigits(size);
  const factor = power(Math.abs(exponent));
  const scaled = exponent < 0 ? size / factor : size * factor;
  if (size === 0 || !Number.isFinite(scaled) || !Number.isFinite(factor)) return size;
  return exponent < 0 ? Math.round(scaled) * factor : Math.round(scaled) / factor;
}

/** Held to 15 digits, except that a value of at most 11 binary places is exact already and stays. */
const faithful = (size: number): number =>
  size >= ALL_WHOLE || Number.isInteger(size * 2048) ? size : held(size, FAITHFUL_DIGITS);

const floorOf = (x: number): number => Math.floor(x < 0 ? -faithful(-x) : faithful(x));
const ceilingOf = (x: number): number => -floorOf(-x);

/** The nearest whole number to the double as it stands, ties away from zero. */
function nearestWhole(x: number): number {
  const size = Math.abs(x);
  const floor = Math.floor(size);
  return Math.sign(x) * (size - floor >= 0.5 ? floor + 1 : floor);
}

/** Whole number nearest to `size` (not negative), which may be noisy in its 16th digit. */
function nearestFaithful(size: number, mode: RoundingMode): number {
  const up = Math.floor(faithful(size + 0.5));
  const tie = mode === 'half-even' && faithful(size) + 0.5 === up;
  return tie && up % 2 === 1 ? up - 1 : up;
}

/**
 * Applies `toWhole` to the size of `x` in units of 10^-digits and puts sign and scale back.
 * The division by an exact power of ten is correctly rounded: the result is the double nearest the decimal
 * (for farther powers the reading of a decimal literal is).
 */
function scaledBy(x: number, digits: number, toWhole: (size: number) => number): number {
  const size = Math.abs(x);
  if (digits >= 0 && Number.isInteger(x)) return x + 0;
  const factor = power(Math.abs(digits));
  const units = digits < 0 ? size / factor : size * factor;
  if (units >= ALL_WHOLE) return x;
  const whole = toWhole(units);
  const scaled = digits < 0 ? whole * factor : whole / factor;
  const rounded = Math.abs(digits) > LARGEST_EXACT_POWER ? Number(`${whole}e${-digits}`) : scaled;
  return (Number.isFinite(rounded) ? Math.sign(x) * rounded : x) + 0;
}

/** Spreadsheet digit counts truncate: 2.9 means 2 (OpenFormula test cases for ROUND, 2.9 -> 2 places). */
const wholeDigits = (digits: number): number => Math.trunc(digits);

/**
 * ROUND: `x` to `digits` decimal places (negative: tens, hundreds), ties by `mode`.
 * Source: OpenFormula ROUND; ties away from zero measured against LibreOffice 7.4.7 as told above.
 */
export function roundTo(x: number, digits = 0, mode: RoundingMode = 'half-away'): number {
  const places = wholeDigits(digits);
  if (places === 0 && mode === 'half-away') return nearestWhole(x) + 0;
  return scaledBy(x, places, (units) => nearestFaithful(units, mode));
}

/** Held so that noise below the 12th digit, or three places past `digits`, is no reason to go on. */
function cautious(x: number, digits: number): number {
  if (Number.isInteger(x)) return x;
  const size = Math.abs(x);
  const kept = Math.max(CAUTIOUS_DIGITS, leadingDigits(size) + digits + 3);
  return Math.sign(x) * held(size, Math.min(kept, FAITHFUL_DIGITS));
}

/** ROUNDUP: away from zero at `digits` places; 1.21 + noise stays 1.21. Digits as in `roundTo`. */
export function roundUpTo(x: number, digits = 0): number {
  const places = wholeDigits(digits);
  return scaledBy(cautious(x, places), places, ceilingOf);
}

/** ROUNDDOWN: towards zero at `digits` places; 4.35 stays 4.35. Digits as in `roundTo`. */
export function roundDownTo(x: number, digits = 0): number {
  const places = wholeDigits(digits);
  return scaledBy(cautious(x, places), places, floorOf);
}

/** INT: the largest whole number not above `x`: -1.2 -> -2, 0.29 * 100 -> 29. Source: OpenFormula INT. */
export function wholeBelow(x: number): number {
  return floorOf(x) + 0;
}

/** A short decimal as whole number and power of ten (0.25 is 25 and 2), or undefined. */
function shortDecimal(x: number): { readonly units: number; readonly places: number } | undefined {
  for (let places = 0; places <= 6; places += 1) {
    const units = Math.round(x * power(places));
    // Below 10^15 each decimal has a double of its own, so equality here is equality of decimals.
    if (Math.abs(units) < 1e15 && units / power(places) === x) return { units, places };
  }
  return undefined;
}

/** `count` steps as the double nearest the decimal product: 3 * 0.1 is 0.3. */
function steps(count: number, step: number): number {
  const short = shortDecimal(step);
  const units = short === undefined ? Number.NaN : short.units * count;
  if (short !== undefined && Math.abs(units) < ALL_WHOLE) return units / power(short.places) + 0;
  return new Exact(step).times(count).toNumber() + 0;
}

/**
 * CEILING: the multiple of `step` at or above `x`; step 0 gives 0. With both negative, away from zero.
 * Where `x` is positive and `step` negative a spreadsheet gives an error: that is for the caller to refuse.
 */
export function ceilingTo(x: number, step: number): number {
  return toStep(x, step, ceilingOf);
}

/** FLOOR: the multiple of `step` at or below `x`; otherwise as `ceilingTo` (both negative: towards zero). */
export function floorTo(x: number, step: number): number {
  return toStep(x, step, floorOf);
}

/** MROUND: the multiple of `step` nearest to `x`, ties away from zero as x / step in doubles has them. */
export function roundToMultiple(x: number, step: number): number {
  return toStep(x, step, nearestWhole);
}

function toStep(x: number, step: number, toWhole: (quotient: number) => number): number {
  const quotient = step === 0 ? 0 : x / step;
  const result = steps(toWhole(quotient), step);
  // A step too small for the quotient to be a number, or too large for a further one: x is as near as can be.
  return Number.isFinite(result) ? result : x;
}

/**
 * MOD: what is left of `x` after whole `divisor`s, with the divisor's sign: MOD(-7, 3) is 2.
 * In decimals, so MOD(5.5, 2.2) is 1.1; a rest of less than 2^-48 of `x` is noise and counts as 0.
 * Divisor 0 returns 0; a spreadsheet gives #DIV/0!, which is for the caller to say.
 */
export function remainder(x: number, divisor: number): number {
  if (divisor === 0 || x === 0) return 0;
  if (Number.isSafeInteger(x) && Number.isSafeInteger(divisor)) {
    const rest = x % divisor;
    return (rest !== 0 && rest < 0 !== divisor < 0 ? rest + divisor : rest) + 0;
  }
  const quotient = x / divisor;
  // No digit of such an x says where between two divisors it lies.
  if (Math.abs(quotient) >= ALL_WHOLE) return 0;
  const rest = new Exact(x).minus(new Exact(divisor).times(floorOf(quotient))).toNumber();
  const size = Math.abs(rest);
  // The last test is for an x so near 0 that divisor + x is the divisor again.
  const noise = size < Math.abs(x) * 2 ** -48 || rest < 0 !== divisor < 0 || size >= Math.abs(divisor);
  return noise ? 0 : rest + 0;
}
