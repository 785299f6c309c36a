import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { hitch } from '../../engine/cord/hitch.ts';
import { between, stray } from './amounts.ts';
import { expectAgreement, nativeOf } from './bareSheet.ts';

describe('HITCH_CORD', () => {
  it('says the same in both spellings', () => {
    const native = nativeOf(hitch);
    fc.assert(
      fc.property(between(0, 20), between(0, 100), between(0.1, 30), (...values) =>
        expectAgreement(hitch, native, values),
      ),
    );
  });

  it('has no answer in either spelling outside its domain', () => {
    const native = nativeOf(hitch);
    fc.assert(fc.property(stray, stray, stray, (...values) => expectAgreement(hitch, native, values)));
    for (const values of [
      [-1, 10, 4],
      [1, -10, 4],
      [1, 10, 0],
    ]) {
      expect(hitch.compute(...values)).toBeNaN();
      expect(native(...values)).toBeNaN();
    }
  });

  it('doubles when both diameters double, whatever the unit', () => {
    fc.assert(
      fc.property(
        between(0, 20),
        between(0, 100),
        between(0.1, 30),
        between(0.1, 30),
        (turns, rod, cord, by) => {
          const scaled = hitch.compute(turns, rod * by, cord * by);
          expect(Math.abs(scaled - by * hitch.compute(turns, rod, cord))).toBeLessThanOrEqual(1e-12 * scaled);
        },
      ),
    );
  });

  it('is turns times the circle through the middle of the cord', () => {
    expect(hitch.compute(2, 6, 4)).toBeCloseTo(2 * Math.PI * 10, 12);
    expect(hitch.compute(0, 6, 4)).toBe(0);
  });
});
