import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { zigzag } from '../../engine/cord/zigzag.ts';
import { between, pitches, stray } from './amounts.ts';
import { expectAgreement, nativeOf } from './bareSheet.ts';

const cores = fc.integer({ min: 2, max: 12 });

describe('ZIGZAG_CORD', () => {
  it('says the same in both spellings', () => {
    const native = nativeOf(zigzag);
    fc.assert(fc.property(cores, pitches, (...values) => expectAgreement(zigzag, native, values)));
  });

  it('has no answer in either spelling outside its domain', () => {
    const native = nativeOf(zigzag);
    fc.assert(fc.property(stray, stray, (...values) => expectAgreement(zigzag, native, values)));
    for (const values of [
      [1, 1],
      [0, 1],
      [2.5, 1],
      [2, 0],
      [2, -1],
    ]) {
      expect(zigzag.compute(...values)).toBeNaN();
      expect(native(...values)).toBeNaN();
    }
  });

  it('takes more cord with another core strand, less with passes farther apart', () => {
    fc.assert(
      fc.property(cores, pitches, between(0.01, 2), (core, pitch, more) => {
        const taken = zigzag.compute(core, pitch);
        expect(zigzag.compute(core + 1, pitch)).toBeGreaterThan(taken);
        expect(zigzag.compute(core, pitch + more)).toBeLessThan(taken);
      }),
    );
  });
});
