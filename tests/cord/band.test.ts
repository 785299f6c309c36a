import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { band } from '../../engine/cord/band.ts';
import { between, pitches, stray } from './amounts.ts';
import { expectAgreement, nativeOf } from './bareSheet.ts';

const cores = fc.oneof(fc.integer({ min: 0, max: 12 }), between(0, 12));
const layers = fc.integer({ min: 1, max: 6 });
const passed = fc.oneof(fc.integer({ min: 1, max: 8 }), between(0.5, 8));

describe('BAND_CORD', () => {
  it('says the same in both spellings', () => {
    const native = nativeOf(band);
    fc.assert(
      fc.property(cores, layers, pitches, passed, (...values) => expectAgreement(band, native, values)),
    );
  });

  it('has no answer in either spelling outside its domain', () => {
    const native = nativeOf(band);
    fc.assert(fc.property(stray, stray, stray, stray, (...values) => expectAgreement(band, native, values)));
    for (const values of [
      [-1, 1, 1.2, 2],
      [2, 0, 1.2, 2],
      [2, 7, 1.2, 2],
      [2, 1.5, 1.2, 2],
      [2, 1, 0, 2],
      [2, 1, 1.2, 0],
    ]) {
      expect(band.compute(...values)).toBeNaN();
      expect(native(...values)).toBeNaN();
    }
  });

  it('takes more cord over a wider or thicker bar, less with longer stitches', () => {
    fc.assert(
      fc.property(
        cores,
        fc.integer({ min: 1, max: 5 }),
        pitches,
        passed,
        between(0.01, 2),
        (core, count, pitch, knots, more) => {
          const taken = band.compute(core, count, pitch, knots);
          expect(band.compute(Math.max(core, 1) + more, count, pitch, knots)).toBeGreaterThan(taken);
          expect(band.compute(core, count + 1, pitch, knots)).toBeGreaterThan(taken);
          expect(band.compute(core, count, pitch + more, knots)).toBeLessThan(taken);
          expect(band.compute(core, count, pitch, knots + more)).toBeLessThan(taken);
        },
      ),
    );
  });

  it('depends on the length of a stitch alone: two half knots of one pitch, or one of twice that', () => {
    fc.assert(
      fc.property(cores, layers, pitches, (core, count, pitch) => {
        expect(band.compute(core, count, pitch, 2)).toBeCloseTo(band.compute(core, count, 2 * pitch, 1), 9);
      }),
    );
  });
});
