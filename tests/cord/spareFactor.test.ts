import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { spareFactor } from '../../engine/cord/spareFactor.ts';
import { nativeOf } from './bareSheet.ts';

/** What stands for infinitely many degrees of freedom. */
const assumed = 1_000_000;

describe('SPARE_FACTOR', () => {
  // Printed tables of t, one tail, three decimals (from memory; any textbook of statistics has them).
  it.each([
    [0.05, 1, 6.314],
    [0.05, 2, 2.92],
    [0.05, 10, 1.812],
    [0.025, 3, 3.182],
    [0.025, 9, 2.262],
    [0.01, 4, 3.747],
    [0.01, 20, 2.528],
    [0.005, 5, 4.032],
    [0.1, 6, 1.44],
    [0.05, assumed, 1.645],
    [0.02, assumed, 2.054],
    [0.01, assumed, 2.326],
  ])('for a chance of %d with %d degrees is %d', (chance, degrees, table) => {
    expect(spareFactor.compute(chance, degrees)).toBeCloseTo(table, 3);
    expect(nativeOf(spareFactor)(chance, degrees)).toBeCloseTo(table, 3);
  });

  it('says the same in both spellings, as near as TINV of HyperFormula comes', () => {
    const native = nativeOf(spareFactor);
    const chances = fc.double({ min: 0.001, max: 0.45, noNaN: true });
    const degrees = fc.oneof(fc.integer({ min: 1, max: 1000 }), fc.constant(assumed));
    fc.assert(
      fc.property(chances, degrees, (chance, df) => {
        const computed = spareFactor.compute(chance, df);
        expect(Math.abs(native(chance, df) - computed)).toBeLessThan(1e-6 * Math.max(1, computed));
      }),
    );
  });

  it.each([
    [0, 3],
    [-0.1, 3],
    [0.5, 3],
    [0.98, 3],
    [0.02, 0],
    [0.02, 2.5],
    [0.02, -4],
  ])('has no answer in either spelling for a chance of %d with %d degrees', (chance, degrees) => {
    expect(spareFactor.compute(chance, degrees)).toBeNaN();
    expect(nativeOf(spareFactor)(chance, degrees)).toBeNaN();
  });

  it('falls with the chance and with the degrees, and answers the same when asked again', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.001, max: 0.4, noNaN: true }),
        fc.integer({ min: 1, max: 200 }),
        (p, df) => {
          const factor = spareFactor.compute(p, df);
          expect(spareFactor.compute(p * 1.1, df)).toBeLessThan(factor);
          expect(spareFactor.compute(p, df + 1)).toBeLessThan(factor);
          expect(spareFactor.compute(p, df)).toBe(factor);
        },
      ),
    );
  });
});
