import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { plait } from '../../engine/cord/plait.ts';
import { between, pitches, stray } from './amounts.ts';
import { expectAgreement, nativeOf } from './bareSheet.ts';

const strands = fc.integer({ min: 3, max: 15 });
const angles = between(0.01, 89.9);

describe('PLAIT_CORD', () => {
  it('says the same in both spellings', () => {
    const native = nativeOf(plait);
    fc.assert(fc.property(strands, angles, pitches, (...values) => expectAgreement(plait, native, values)));
  });

  it('has no answer in either spelling outside its domain', () => {
    const native = nativeOf(plait);
    fc.assert(fc.property(stray, stray, stray, (...values) => expectAgreement(plait, native, values)));
    for (const values of [
      [2, 45, 1.4],
      [3.5, 45, 1.4],
      [3, 0, 1.4],
      [3, 90, 1.4],
      [3, 45, 0],
    ]) {
      expect(plait.compute(...values)).toBeNaN();
      expect(native(...values)).toBeNaN();
    }
  });

  it('takes more cord the steeper its strands lie, and the closer its bights follow', () => {
    fc.assert(
      fc.property(strands, between(1, 80), pitches, between(0.1, 5), (count, angle, pitch, more) => {
        const taken = plait.compute(count, angle, pitch);
        expect(plait.compute(count, angle + more, pitch)).toBeGreaterThan(taken);
        expect(plait.compute(count, angle, pitch + more)).toBeLessThan(taken);
      }),
    );
  });

  it('comes near 1 / cos a for many strands laid wide apart, where crossings and turns are rare', () => {
    expect(plait.compute(400, 40, 60)).toBeCloseTo(1 / Math.cos((40 * Math.PI) / 180), 2);
  });

  it('always takes more than the plait is long', () => {
    fc.assert(
      fc.property(strands, angles, pitches, (...values) => {
        expect(plait.compute(...values)).toBeGreaterThan(1);
      }),
    );
  });
});
