import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { spareLeft } from '../../engine/cord/spareLeft.ts';
import { between, stray } from './amounts.ts';
import { expectAgreement, nativeOf } from './bareSheet.ts';

describe('SPARE_LEFT', () => {
  it('says the same in both spellings', () => {
    const native = nativeOf(spareLeft);
    fc.assert(fc.property(between(0, 50), (factor) => expectAgreement(spareLeft, native, [factor])));
    fc.assert(fc.property(stray, (factor) => expectAgreement(spareLeft, native, [factor])));
    expect(spareLeft.compute(-1)).toBeNaN();
  });

  // Without extra the half of the pieces that take less leave 0.8 standard deviations each: 1 / sqrt(2 pi).
  it('leaves something even of nothing, and hardly more than all of much', () => {
    expect(spareLeft.compute(0)).toBeCloseTo(1 / Math.sqrt(2 * Math.PI), 14);
    expect(spareLeft.compute(15.9)).toBe(15.9);
  });

  it.each([0.3, 1.2816, 2.0537, 3.5])('adds up what pieces leave of an extra of %d', (factor) => {
    // Midpoints of 200,000 slices over plus and minus ten standard deviations.
    const step = 20 / 200_000;
    let sum = 0;
    for (let x = -10 + step / 2; x < 10; x += step) {
      sum += (Math.max(0, factor - x) * Math.exp(-(x * x) / 2) * step) / Math.sqrt(2 * Math.PI);
    }
    expect(spareLeft.compute(factor)).toBeCloseTo(sum, 8);
  });
});
