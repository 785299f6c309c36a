import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  ceilingTo,
  floorTo,
  remainder,
  roundDownTo,
  roundTo,
  roundToMultiple,
  roundUpTo,
  wholeBelow,
} from '../../engine/money/rounding.ts';

describe('published cases', () => {
  // General Decimal Arithmetic test cases (M. Cowlishaw), quantize.decTest, half-up.
  test.each([
    [2.17, 3, 2.17],
    [2.17, 2, 2.17],
    [2.17, 1, 2.2],
    [2.17, 0, 2],
    [2.17, -1, 0],
    [217, 1, 217],
    [217, 0, 217],
    [217, -1, 220],
    [217, -2, 200],
    [1.2345, 2, 1.23],
    [1.2355, 2, 1.24],
    [9.9999, 2, 10],
    [1.05, 1, 1.1],
    [1.04, 1, 1],
    [1.06, 1, 1.1],
    [-0.5, 0, -1],
    [0.009, 2, 0.01],
    [352364.506, 2, 352364.51],
    // Half-up at two places, results of a decimal library, as it printed them.
    [0.125, 2, 0.13],
    [0.135, 2, 0.14],
    [0.175, 2, 0.18],
  ])('quantize half-up: %d at %d places is %d', (x, digits, expected) => {
    expect(roundTo(x, digits)).toBe(expected);
  });

  // General Decimal Arithmetic, rounding.decTest: the sums 12345 + 0.5 and 12346 + 0.5.
  test('five-digit ties in every direction', () => {
    const ties = [12345.5, 12346.5, 12346.50001];
    expect(ties.map((x) => roundDownTo(x))).toEqual([12345, 12346, 12346]);
    expect(ties.map((x) => roundTo(x, 0, 'half-even'))).toEqual([12346, 12346, 12347]);
    expect(ties.map((x) => roundTo(x))).toEqual([12346, 12347, 12347]);
    expect(ties.map((x) => roundUpTo(x))).toEqual([12346, 12347, 12347]);
    expect(ties.map((x) => wholeBelow(x))).toEqual([12345, 12346, 12346]);
    expect(ties.map((x) => ceilingTo(x, 1))).toEqual([12346, 12347, 12347]);
  });

  test('half-even: 0.5, 1.5, 2.5, 3.5 (IEEE 754-2019 roundTiesToEven), 0.45 and 0.55 (a decimal library)', () => {
    expect([0.5, 1.5, 2.5, 3.5].map((x) => roundTo(x, 0, 'half-even'))).toEqual([0, 2, 2, 4]);
    expect([0.45, 0.55].map((x) => roundTo(x, 1, 'half-even'))).toEqual([0.4, 0.6]);
  });

  // Direction for negatives: -0.51 to one place, results of a decimal library, as it printed them.
  test('negative numbers keep their direction', () => {
    expect(roundUpTo(-0.51, 1)).toBe(-0.6);
    expect(roundDownTo(-0.51, 1)).toBe(-0.5);
    expect(ceilingTo(-0.51, 0.1)).toBe(-0.5);
    expect(floorTo(-0.51, 0.1)).toBe(-0.6);
  });

  // OASIS OpenFormula 1.2 draft 7, test tables.
  test('OpenFormula ROUND, TRUNC and INT', () => {
    expect([10.1, 9.8, 0.5, -1.1, -1.5].map((x) => roundTo(x, 0))).toEqual([10, 10, 1, -1, -2]);
    expect([0, 1, 2, 2.9].map((digits) => roundTo(1 / 3, digits))).toEqual([0, 0.3, 0.33, 0.33]);
    expect(roundTo(5555, -1)).toBe(5560);
    expect(roundDownTo(5555, -1)).toBe(5550);
    expect([2, -3, 1.2, 1.7, -1.2].map((x) => wholeBelow(x))).toEqual([2, -3, 1, 1, -2]);
    expect([roundDownTo(1 / 3, 1), roundDownTo(1 / 3, 2), roundDownTo(-1.1, 0)]).toEqual([0.3, 0.33, -1]);
  });

  test('CEILING(2;4) from memory, CEILING(-4.5;-2) from a spreadsheet library test', () => {
    expect(ceilingTo(2, 4)).toBe(4);
    expect(ceilingTo(-4.5, -2)).toBe(-6);
  });
});

describe('values that binary floats miss (answers of LibreOffice 7.4.7)', () => {
  test('ties and near-whole numbers, literal and computed', () => {
    expect(roundTo(1.005, 2)).toBe(1.01);
    expect(roundTo((2.675 * 100) / 100, 2)).toBe(2.68);
    expect(roundTo(1.15 * 3, 1)).toBe(3.5);
    expect(wholeBelow(0.29 * 100)).toBe(29);
    expect(wholeBelow(-1.5)).toBe(-2);
    expect(roundDownTo(4.35, 2)).toBe(4.35);
    expect(roundDownTo(-1.29 * 100)).toBe(-129);
    expect(roundUpTo(1.1 * 1.1, 2)).toBe(1.21);
    expect(floorTo(0.3, 0.1)).toBe(0.3);
    expect(ceilingTo(0.1 * 3, 0.1)).toBe(0.3);
    expect(floorTo(4.35 * 100, 1)).toBe(435);
  });

  test('MOD follows the divisor and leaves no noise', () => {
    expect([remainder(-7, 3), remainder(7, -3)]).toEqual([2, -2]);
    expect([remainder(1, 0.1), remainder(0.3, 0.1), remainder(1, 1 / 3)]).toEqual([0, 0, 0]);
    expect([remainder(5.5, 2.2), remainder(-6.6, 2.2), remainder(4.35 * 100, 1)]).toEqual([1.1, 0, 0]);
  });

  test('at 0 digits, and in MROUND, the double itself decides', () => {
    expect(roundTo(1.005 * 100, 0)).toBe(100);
    expect(roundToMultiple(1.025, 0.05)).toBe(1);
    expect(roundToMultiple(1.03, 0.05)).toBe(1.05);
    expect(roundToMultiple(-5, -2)).toBe(-6);
  });

  test('step 0, far digit counts and far numbers', () => {
    expect([ceilingTo(5, 0), floorTo(5, 0), roundToMultiple(5, 0), remainder(5, 0)]).toEqual([0, 0, 0, 0]);
    expect([roundTo(155, -3), roundUpTo(155, -3), roundUpTo(155, -400)]).toEqual([0, 1000, 0]);
    expect([roundTo(155, 400), roundUpTo(155.5, 400), roundTo(1.5e-25, 25)]).toEqual([155, 155.5, 2e-25]);
    expect([roundUpTo(1e-20, 2), roundUpTo(-1e-20, 2), roundDownTo(1e-20, 2)]).toEqual([0.01, -0.01, 0]);
    expect(wholeBelow(2199023255553.999)).toBe(2199023255553);
  });

  test('ROUNDDOWN of a large amount keeps its cents (LibreOffice 7.4.7 loses them)', () => {
    expect(roundDownTo(1234567890.999, 0)).toBe(1234567890);
    expect(roundDownTo(1234567890.128, 2)).toBe(1234567890.12);
  });
});

describe('laws', () => {
  const amount = fc.double({ min: -1e7, max: 1e7, noNaN: true });
  const places = fc.integer({ min: -3, max: 4 });
  const step = fc.constantFrom(0.01, 0.05, 0.1, 0.25, 0.5, 1, 5, 12.5);

  test('every decimal tie is rounded away from zero, and half-even to the even digit', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 10 ** 9 }), fc.integer({ min: 1, max: 6 }), (units, digits) => {
        const tie = Number(`${units}5e-${digits + 1}`);
        expect(roundTo(tie, digits)).toBe(Number(`${units + 1}e-${digits}`));
        expect(roundTo(-tie, digits)).toBe(-Number(`${units + 1}e-${digits}`));
        expect(roundTo(tie, digits, 'half-even')).toBe(Number(`${units + (units % 2)}e-${digits}`));
      }),
    );
  });

  test('rounding twice is rounding once', () => {
    fc.assert(
      fc.property(amount, places, step, (x, digits, by) => {
        for (const round of [roundTo, roundUpTo, roundDownTo]) {
          expect(round(round(x, digits), digits)).toBe(round(x, digits));
        }
        for (const round of [ceilingTo, floorTo, roundToMultiple]) {
          expect(round(round(x, by), by)).toBe(round(x, by));
        }
      }),
    );
  });

  test('sign symmetry, and the order of down, nearest and up', () => {
    fc.assert(
      fc.property(amount, places, (x, digits) => {
        expect(roundTo(-x, digits)).toBe(-roundTo(x, digits) + 0);
        const size = Math.abs(x);
        expect(roundDownTo(size, digits)).toBeLessThanOrEqual(roundTo(size, digits));
        expect(roundTo(size, digits)).toBeLessThanOrEqual(roundUpTo(size, digits));
      }),
    );
  });

  test('a remainder and its whole steps give the number back', () => {
    fc.assert(
      fc.property(amount, step, (x, by) => {
        // Just below 0 no double holds step - x; the rest then is 0.
        fc.pre(Math.abs(x) > 1e-9);
        const rest = remainder(x, by);
        expect(rest).toBeGreaterThanOrEqual(0);
        expect(rest).toBeLessThan(by);
        const missing = Math.abs(floorTo(x, by) + rest - x);
        expect(missing).toBeLessThanOrEqual((Math.abs(x) + by) * 1e-14);
      }),
    );
  });

  test('any finite number gives a finite number, never -0', () => {
    const any = fc.double({ noNaN: true, noDefaultInfinity: true });
    fc.assert(
      fc.property(any, any, fc.integer({ min: -400, max: 400 }), (x, by, digits) => {
        const results = [
          roundTo(x, digits),
          roundTo(x, digits, 'half-even'),
          roundUpTo(x, digits),
          roundDownTo(x, digits),
          wholeBelow(x),
          remainder(x, by),
        ];
        if (by === 0 || Math.sign(x) === Math.sign(by)) {
          results.push(ceilingTo(x, by), floorTo(x, by), roundToMultiple(x, by));
        }
        for (const result of results) {
          expect(Number.isFinite(result)).toBe(true);
          expect(Object.is(result, -0)).toBe(false);
        }
      }),
      { numRuns: 2000 },
    );
  });
});
