import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { slot } from '../../engine/cord/slot.ts';
import { between, stray } from './amounts.ts';
import { expectAgreement, nativeOf } from './bareSheet.ts';

describe('STRANDS_ACROSS', () => {
  it('says the same in both spellings', () => {
    const native = nativeOf(slot);
    fc.assert(
      fc.property(between(0, 500), between(0.1, 30), (...values) => expectAgreement(slot, native, values)),
    );
  });

  it('has no answer in either spelling outside its domain', () => {
    const native = nativeOf(slot);
    fc.assert(fc.property(stray, stray, (...values) => expectAgreement(slot, native, values)));
    for (const values of [
      [-1, 4],
      [24, 0],
      [24, -4],
    ]) {
      expect(slot.compute(...values)).toBeNaN();
      expect(native(...values)).toBeNaN();
    }
  });

  it.each([
    [24, 4, 6],
    [25.4, 4, 6],
    [0.3, 0.1, 3],
    [0.7, 0.1, 7],
    [23.99, 4, 5],
    [3, 4, 0],
  ])('a slot of %d takes cord of %d: %d strands', (width, cord, strands) => {
    expect(slot.compute(width, cord)).toBe(strands);
    expect(nativeOf(slot)(width, cord)).toBe(strands);
  });

  it('finds every strand of a slot made to fit, in tenths of a millimetre', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 60 }), fc.integer({ min: 5, max: 150 }), (strands, tenths) => {
        expect(slot.compute((strands * tenths) / 10, tenths / 10)).toBe(strands);
      }),
    );
  });

  it('is free of scale', () => {
    fc.assert(
      fc.property(between(1, 500), between(0.5, 30), (width, cord) => {
        expect(slot.compute(width * 1024, cord * 1024)).toBe(slot.compute(width, cord));
      }),
    );
  });
});
