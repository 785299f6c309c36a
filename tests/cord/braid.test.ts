import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { braid } from '../../engine/cord/braid.ts';
import { between, stray } from './amounts.ts';
import { expectAgreement, nativeOf } from './bareSheet.ts';

describe('BRAID_CORD', () => {
  it('says the same in both spellings, up to angles that no braid has', () => {
    const native = nativeOf(braid);
    fc.assert(fc.property(between(0, 89.9999), (angle) => expectAgreement(braid, native, [angle])));
  });

  it('has no answer in either spelling outside its domain', () => {
    const native = nativeOf(braid);
    fc.assert(fc.property(stray, (angle) => expectAgreement(braid, native, [angle])));
    for (const angle of [-1, 90, 120]) {
      expect(braid.compute(angle)).toBeNaN();
      expect(native(angle)).toBeNaN();
    }
  });

  it('takes its own length when strands lie straight, and more the steeper they lie', () => {
    expect(braid.compute(0)).toBe(1);
    fc.assert(
      fc.property(between(0, 80), between(0.1, 5), (angle, more) => {
        expect(braid.compute(angle + more)).toBeGreaterThan(braid.compute(angle));
      }),
    );
  });
});
