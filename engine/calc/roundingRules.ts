import {
  ceilingTo,
  floorTo,
  remainder,
  roundDownTo,
  roundTo,
  roundToMultiple,
  roundUpTo,
  wholeBelow,
} from '../money/rounding.ts';

/** A rounded number, or why a sheet shows a failure instead: a division by zero, or a number out of bounds. */
export type Rounded = number | 'divide' | 'number';

/** Spreadsheet programs refuse a step whose sign is not the number's. */
const withStep =
  (compute: (x: number, step: number) => number) =>
  (x: number, step: number): Rounded =>
    x > 0 && step < 0 ? 'number' : compute(x, step);

/**
 * The rounding family as sheets know it, with its failures where spreadsheet programs have them. Both engines
 * take it from here.
 */
export const roundingRules: Readonly<Record<string, (x: number, second: number) => Rounded>> = Object.freeze({
  ROUND: (x: number, digits: number) => roundTo(x, digits),
  ROUNDUP: roundUpTo,
  ROUNDDOWN: roundDownTo,
  // Cutting off digits is rounding towards zero.
  TRUNC: roundDownTo,
  INT: (x: number) => wholeBelow(x),
  MOD: (x: number, divisor: number): Rounded => (divisor === 0 ? 'divide' : remainder(x, divisor)),
  CEILING: withStep(ceilingTo),
  // Step 0: LibreOffice refuses it in FLOOR (though not in CEILING, where it gives 0), as Excel does.
  FLOOR: (x: number, step: number): Rounded =>
    step === 0 && x !== 0 ? 'divide' : withStep(floorTo)(x, step),
  // Unlike signs: LibreOffice answers, Excel refuses (from memory). An error is the loud one of the two.
  MROUND: (x: number, step: number): Rounded => (x * step < 0 ? 'number' : roundToMultiple(x, step)),
});
