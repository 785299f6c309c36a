import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { plait } from '../../engine/cord/plait.ts';
import { between, pitches, stray } from './amounts.ts';
import { expectAgreement, nativeOf } from './bareSheet.ts';
import { tauten } from './drawn/tauten.ts';
import { plaitWeave } from './drawn/tautWeaves.ts';

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

/** The angle at which a plait is as wide as docs/cord/flat-plait.md says, found by halving. */
function angleOfWidth(count: number, pitch: number, width: number): number {
  let [low, high] = [1, 89];
  for (let halving = 0; halving < 50; halving += 1) {
    const a = ((low + high) * Math.PI) / 360;
    const drawn = 1 + pitch * (((count - 2) / 2) * Math.tan(a) + Math.tan(a / 2));
    if (drawn < width) low = (low + high) / 2;
    else high = (low + high) / 2;
  }
  return low;
}

describe('a flat plait of round cords that do not give, pulled taut in space', () => {
  it.each([3, 4, 5, 6, 7])('%d strands: takes 3 to 7 per cent more, as its crests are round', (count) => {
    for (const pitch of [2.4, 2.8]) {
      const taut = tauten(plaitWeave(count, pitch), 2000);
      expect(taut.closest).toBeGreaterThan(0.985);
      expect(taut.closest).toBeLessThan(1.01);
      const across = taut.points.map(([, y]) => y);
      const angle = angleOfWidth(count, pitch, Math.max(...across) - Math.min(...across) + 1);
      const more = taut.length / (count * pitch * plait.compute(count, angle, pitch)) - 1;
      expect(more).toBeGreaterThan(0.03);
      expect(more).toBeLessThan(0.07);
    }
  });
});
