import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { stripe } from '../../engine/cord/stripe.ts';
import { between, pitches, stray } from './amounts.ts';
import { expectAgreement, nativeOf } from './bareSheet.ts';

describe('STRIPE_CORD', () => {
  it('says the same in both spellings', () => {
    const native = nativeOf(stripe);
    fc.assert(fc.property(pitches, (pitch) => expectAgreement(stripe, native, [pitch])));
  });

  it('has no answer in either spelling outside its domain', () => {
    const native = nativeOf(stripe);
    fc.assert(fc.property(stray, (pitch) => expectAgreement(stripe, native, [pitch])));
    for (const pitch of [0, -1.2]) {
      expect(stripe.compute(pitch)).toBeNaN();
      expect(native(pitch)).toBeNaN();
    }
  });

  it('always takes more than the bar is long, and more the closer the half knots', () => {
    fc.assert(
      fc.property(pitches, between(0.01, 2), (pitch, more) => {
        expect(stripe.compute(pitch + more)).toBeGreaterThan(1);
        expect(stripe.compute(pitch + more)).toBeLessThan(stripe.compute(pitch));
      }),
    );
  });
});
