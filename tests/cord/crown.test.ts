import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { crown } from '../../engine/cord/crown.ts';
import { between, pitches, stray } from './amounts.ts';
import { expectAgreement, nativeOf } from './bareSheet.ts';
import { tauten } from './drawn/tauten.ts';
import { crownWeave } from './drawn/tautWeaves.ts';

describe('CROWN_CORD', () => {
  it('says the same in both spellings', () => {
    const native = nativeOf(crown);
    fc.assert(fc.property(pitches, (...values) => expectAgreement(crown, native, values)));
  });

  it('has no answer in either spelling outside its domain', () => {
    const native = nativeOf(crown);
    fc.assert(fc.property(stray, (...values) => expectAgreement(crown, native, values)));
    for (const pitch of [0, -2]) {
      expect(crown.compute(pitch)).toBeNaN();
      expect(native(pitch)).toBeNaN();
    }
  });

  it('takes less cord per length the longer a crown is, and always more than the sinnet is long', () => {
    fc.assert(
      fc.property(pitches, between(0.1, 5), (c, more) => {
        expect(crown.compute(c + more)).toBeLessThan(crown.compute(c));
        expect(crown.compute(c)).toBeGreaterThan(1);
      }),
    );
  });

  it('four strands together about a foot of cord per inch (common practice, no source)', () => {
    expect(Math.abs((4 * crown.compute(2)) / 12 - 1)).toBeLessThan(0.05);
  });
});

describe('a crown sinnet drawn in space and pulled taut', () => {
  // The turn of a round sinnet is about the one at which it takes least cord, found by trying.
  it.each([
    { kind: 'box', strands: 3, pitch: 2.1, turn: undefined, rounds: 3000 },
    { kind: 'box', strands: 4, pitch: 2, turn: undefined, rounds: 2000 },
    { kind: 'box', strands: 4, pitch: 2.3, turn: undefined, rounds: 2000 },
    { kind: 'box', strands: 4, pitch: 3, turn: undefined, rounds: 2000 },
    { kind: 'box', strands: 5, pitch: 2.1, turn: undefined, rounds: 6000 },
    { kind: 'box', strands: 6, pitch: 2.5, turn: undefined, rounds: 8000 },
    { kind: 'box', strands: 8, pitch: 3, turn: undefined, rounds: 8000 },
    { kind: 'round', strands: 3, pitch: 1.9, turn: -60, rounds: 3000 },
    { kind: 'round', strands: 4, pitch: 1.9, turn: -45, rounds: 3000 },
    { kind: 'round', strands: 4, pitch: 2.2, turn: -50, rounds: 3000 },
    { kind: 'round', strands: 6, pitch: 1.9, turn: -30, rounds: 4000 },
  ])('$kind sinnet of $strands strands, crowns of $pitch: within 1.5 per cent', (each) => {
    const taut = tauten(crownWeave(each.strands, each.pitch, each.turn), each.rounds);
    expect(taut.closest).toBeGreaterThan(0.985);
    expect(taut.closest).toBeLessThan(1.01);
    expect(Math.abs((crown.compute(each.pitch) * each.pitch) / taut.length - 1)).toBeLessThan(0.015);
  });

  it('round cords pressed closer than they stack take more than the closed form', () => {
    const taut = tauten(crownWeave(4, 1.7), 2500);
    const short = (crown.compute(1.7) * 1.7) / taut.length - 1;
    expect(short).toBeLessThan(0);
    expect(short).toBeGreaterThan(-0.1);
  });
});
