import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { roundBraid } from '../../engine/cord/roundBraid.ts';
import { between, pitches, stray } from './amounts.ts';
import { expectAgreement, nativeOf } from './bareSheet.ts';
import { tauten } from './drawn/tauten.ts';
import { roundBraidWeave } from './drawn/tautWeaves.ts';

const strands = fc.integer({ min: 2, max: 12 }).map((half) => 2 * half);
const angles = between(0, 89);
const passes = fc.integer({ min: 1, max: 4 });

describe('ROUND_BRAID_CORD', () => {
  it('says the same in both spellings', () => {
    const native = nativeOf(roundBraid);
    fc.assert(
      fc.property(strands, angles, pitches, passes, (...values) =>
        expectAgreement(roundBraid, native, values),
      ),
    );
  });

  it('has no answer in either spelling outside its domain', () => {
    const native = nativeOf(roundBraid);
    fc.assert(
      fc.property(stray, stray, stray, stray, (...values) => expectAgreement(roundBraid, native, values)),
    );
    for (const values of [
      [2, 40, 3, 1],
      [5, 40, 3, 1],
      [4.5, 40, 3, 1],
      [4, -1, 3, 1],
      [4, 90, 3, 1],
      [4, 40, 0, 1],
      [4, 40, 3, 0],
      [8, 40, 3, 1.5],
    ]) {
      expect(roundBraid.compute(...values)).toBeNaN();
      expect(native(...values)).toBeNaN();
    }
  });

  it('takes more cord the steeper and the closer its strands lie, less the more they pass at a time', () => {
    fc.assert(
      fc.property(strands, between(1, 80), pitches, passes, between(0.1, 5), (count, a, c, p, more) => {
        const taken = roundBraid.compute(count, a, c, p);
        expect(roundBraid.compute(count, a + more, c, p)).toBeGreaterThan(taken);
        expect(roundBraid.compute(count, a, c + more, p)).toBeLessThan(taken);
        expect(roundBraid.compute(count, a, c, p + 1)).toBeLessThan(taken);
        expect(roundBraid.compute(count + 2, a, c, p)).toBeGreaterThan(taken);
      }),
    );
  });

  it('comes down to 1 / cos a where crossings are rare, as in the screen of a cable', () => {
    expect(roundBraid.compute(16, 39.5113, 500, 1)).toBeCloseTo(1 / Math.cos((39.5113 * Math.PI) / 180), 4);
  });

  it('four strands take 1.3 to 1.5 times the braid (common practice, no source)', () => {
    for (const [angle, pitch] of [
      [36, 3.2],
      [40, 3],
      [43, 3],
    ]) {
      const taken = roundBraid.compute(4, angle!, pitch!, 1);
      expect(taken).toBeGreaterThan(1.3);
      expect(taken).toBeLessThan(1.5);
    }
  });
});

describe('a round braid drawn in space and pulled taut', () => {
  // strands, core, pitch, passes; then how far the closed form may lie below and above.
  const cases = [
    [4, undefined, 2.5, 1, -0.02, 0.03],
    [4, undefined, 3, 1, -0.02, 0.03],
    [4, undefined, 4, 1, -0.02, 0.03],
    [4, 1, 3, 1, -0.02, 0.03],
    [6, undefined, 2.8, 1, -0.02, 0.03],
    [8, undefined, 2.8, 1, -0.02, 0.03],
    [8, 2, 2.4, 1, -0.02, 0.03],
    [8, 2, 4, 1, -0.02, 0.03],
    [16, 5, 2.4, 1, -0.02, 0.03],
    [16, 5, 3.5, 1, -0.02, 0.03],
    [8, undefined, 2.2, 2, -0.02, 0.05],
    [8, 2, 2.8, 2, -0.02, 0.05],
    [16, 5, 2.2, 2, -0.02, 0.05],
    [16, 5, 3.5, 2, -0.02, 0.05],
  ] as const;

  it.each(cases)('%d strands, core %s, pitch %d, passing %d', (count, core, pitch, over, least, most) => {
    const taut = tauten(roundBraidWeave(count, pitch, over, core), 2000);
    // Strands lie on each other: a diameter apart and no nearer.
    expect(taut.closest).toBeGreaterThan(0.985);
    expect(taut.closest).toBeLessThan(1.01);
    const radii = taut.points.map(([x, y]) => Math.hypot(x, y));
    const [inner, outer] = [Math.min(...radii), Math.max(...radii)];
    expect(outer - inner).toBeGreaterThan(0.97);
    expect(outer - inner).toBeLessThan(1.15);
    // The angle of the round through the middle between crest and trough.
    const tangent = (2 * Math.PI * (inner + outer)) / (count * pitch);
    const angle = (Math.atan(tangent) * 180) / Math.PI;
    const off = (roundBraid.compute(count, angle, pitch, over) * pitch * over) / taut.length - 1;
    expect(off).toBeGreaterThan(least);
    expect(off).toBeLessThan(most);
  });

  it.each([
    [4, 1, 3],
    [8, 2, 3],
    [16, 5, 3],
  ])(
    '%d strands over a core of %d: tan a = 2 pi (D + 2) / (s c), the formula of cable screens',
    (count, core, pitch) => {
      const taut = tauten(roundBraidWeave(count, pitch, 1, core), 1500);
      const radii = taut.points.map(([x, y]) => Math.hypot(x, y));
      const tangent = (2 * Math.PI * (Math.min(...radii) + Math.max(...radii))) / (count * pitch);
      expect(tangent).toBeCloseTo((2 * Math.PI * (core + 2)) / (count * pitch), 2);
    },
  );

  it('four strands without a core close to a middle radius of one diameter', () => {
    const taut = tauten(roundBraidWeave(4, 3, 1), 1500);
    const radii = taut.points.map(([x, y]) => Math.hypot(x, y));
    expect(Math.min(...radii)).toBeCloseTo(0.5, 1);
    expect(Math.max(...radii)).toBeCloseTo(1.5, 1);
  });
});
