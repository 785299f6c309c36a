import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { wrap } from '../../engine/cord/wrap.ts';
import { pitches, stray } from './amounts.ts';
import { expectAgreement, nativeOf } from './bareSheet.ts';
import { hullLength, packedCentres } from './outline.ts';

const bundles = fc.integer({ min: 1, max: 60 });

/** The outline of the centres that the function worked with, taken back out of its result at pitch 1. */
const hullUsed = (core: number): number => Math.sqrt(wrap.compute(core, 1) ** 2 - 1) - 2 * Math.PI;

describe('WRAP_CORD', () => {
  it('says the same in both spellings', () => {
    const native = nativeOf(wrap);
    fc.assert(fc.property(bundles, pitches, (...values) => expectAgreement(wrap, native, values)));
    // Where the root is whole, a last-digit slip would add a whole diameter.
    for (const full of [1, 7, 19, 37, 61, 91, 127, 3169, 30_301]) expectAgreement(wrap, native, [full, 1]);
  });

  it('has no answer in either spelling outside its domain', () => {
    const native = nativeOf(wrap);
    fc.assert(fc.property(stray, stray, (...values) => expectAgreement(wrap, native, values)));
    for (const values of [
      [0, 1],
      [-1, 1],
      [2.5, 1],
      [2, 0],
      [2, -1],
    ]) {
      expect(wrap.compute(...values)).toBeNaN();
      expect(native(...values)).toBeNaN();
    }
  });

  it('takes more cord with a smaller pitch, and never less with another strand', () => {
    fc.assert(
      fc.property(bundles, pitches, (core, pitch) => {
        expect(wrap.compute(core, pitch * 1.1)).toBeLessThan(wrap.compute(core, pitch));
        expect(wrap.compute(core + 1, pitch)).toBeGreaterThanOrEqual(wrap.compute(core, pitch));
      }),
    );
  });

  it('follows the outline of up to seven strands', () => {
    const outlines = [0, 2, 3, 4, 5, 6, 6];
    outlines.forEach((outline, i) => {
      expect(hullUsed(i + 1)).toBeCloseTo(outline, 9);
    });
  });

  it('is never below a packed bundle drawn point by point, and at most 2.3 % a turn above it', () => {
    for (let core = 1; core <= 61; core += 1) {
      const drawn = hullLength(packedCentres(core)) + 2 * Math.PI;
      const turn = hullUsed(core) + 2 * Math.PI;
      expect(turn).toBeGreaterThanOrEqual(drawn - 1e-6);
      expect(turn).toBeLessThanOrEqual(drawn * 1.023);
    }
  });
});
