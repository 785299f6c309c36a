import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { chain } from '../../engine/cord/chain.ts';
import { between, pitches, stray } from './amounts.ts';
import { expectAgreement, nativeOf } from './bareSheet.ts';
import { chainWeave, tautenedDown } from './drawn/tautWeaves.ts';

describe('CHAIN_CORD', () => {
  it('says the same in both spellings', () => {
    const native = nativeOf(chain);
    fc.assert(fc.property(pitches, (...values) => expectAgreement(chain, native, values)));
  });

  it('has no answer in either spelling outside its domain', () => {
    const native = nativeOf(chain);
    fc.assert(fc.property(stray, (...values) => expectAgreement(chain, native, values)));
    for (const pitch of [0, -2]) {
      expect(chain.compute(pitch)).toBeNaN();
      expect(native(pitch)).toBeNaN();
    }
  });

  it('takes less cord per length the longer a loop is, and never less than its strands laid straight', () => {
    fc.assert(
      fc.property(pitches, between(0.1, 5), (c, more) => {
        expect(chain.compute(c + more)).toBeLessThan(chain.compute(c));
        expect(chain.compute(c)).toBeGreaterThan(3);
      }),
    );
  });

  it('four to five times the finished length (common practice, no source)', () => {
    expect(chain.compute(4)).toBeGreaterThan(4);
    expect(chain.compute(3)).toBeCloseTo(5, 0);
  });
});

describe('a chain drawn in space and pulled taut', () => {
  const spaced = [3.5, 3, 2.5, 2.2];

  it('takes what the closed form says, within 1 %, its cords a diameter apart', () => {
    tautenedDown(chainWeave, spaced).forEach((taut, i) => {
      const pitch = spaced[i]!;
      expect(taut.closest).toBeGreaterThan(0.985);
      expect(taut.closest).toBeLessThan(1.01);
      expect(Math.abs((chain.compute(pitch) * pitch) / taut.length - 1), `pitch ${pitch}`).toBeLessThan(0.01);
    });
  });
});
