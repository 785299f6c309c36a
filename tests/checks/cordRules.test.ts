import { describe, expect, it } from 'vitest';
import { bar } from '../../engine/cord/bar.ts';
import { plait } from '../../engine/cord/plait.ts';
import { slot } from '../../engine/cord/slot.ts';

// The rules of thumb below are common practice; none has a published source.

/** Cord in a bar per length of bar: core strands laid straight, and two working cords. */
const whole = (core: number, layers: number, pitch: number): number =>
  core + 2 * bar.compute(core, 1, layers, pitch);

const within = (got: number, rule: number, ratio: number): void => {
  expect(Math.abs(got / rule - 1)).toBeLessThanOrEqual(ratio);
};

describe('rules of thumb', () => {
  it('a foot of cord per inch: a single two-core bar, packed (common practice, no source)', () => {
    within(whole(2, 1, 1.17), 12, 0.05);
  });

  it('two feet of cord per inch: a double two-core bar, not packed (common practice, no source)', () => {
    for (const pitch of [1.35, 1.375, 1.4]) within(whole(2, 2, pitch), 24, 0.05);
  });

  it('working cords four to five times the finished length (common practice, no source)', () => {
    expect(bar.compute(2, 1, 1, 1.17)).toBeGreaterThan(4);
    // The packed bar is the upper end of the rule, which is stated to the nearest whole length.
    expect(bar.compute(2, 1, 1, 1.17)).toBeCloseTo(5, 1);
  });

  it('three hitches of 4 mm cord, six strands, fill a 1 in slot (common practice, no source)', () => {
    expect(slot.compute(25.4, 4)).toBe(6);
    expect(25.4 - 6 * 4).toBeLessThan(4);
  });

  it('strands for a three-strand plait a third to a half longer than the plait (from memory, no source)', () => {
    // Laid snug, c = 1 / sin a, at the angles that such plaits have by eye.
    for (const angle of [35, 38, 42]) {
      const taken = plait.compute(3, angle, 1 / Math.sin((angle * Math.PI) / 180));
      expect(taken).toBeGreaterThan(4 / 3);
      expect(taken).toBeLessThan(3 / 2);
    }
  });
});
