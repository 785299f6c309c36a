import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { crown } from '../../engine/cord/crown.ts';
import { wrap } from '../../engine/cord/wrap.ts';
import { evenly, type Place, shiftBy, type Taut, tauten } from './drawn/tauten.ts';
import { offsetCurve, polylineLength } from './outline.ts';

/** A cord with one knot in it, pulled taut between ends that are 2 * `reach` apart. */
function knotted(at: (t: number) => Place, limit: number, reach: number): Taut {
  const samples = 160;
  const upward = Math.sign(at(limit)[2]);
  const line = Array.from({ length: samples + 1 }, (_, i): Place => {
    const [x, y, z] = at(limit * ((2 * i) / samples - 1));
    return [x, y, z * upward];
  });
  const next = shiftBy(0, 0, 2 * reach);
  return tauten({ points: evenly([[0, 0, -reach], ...line], next, 150), next, others: [] }, 6000);
}

const page = readFileSync('docs/cord/ends.md', 'utf8');
const figureOf = (end: string): number => {
  const row = new RegExp(`^\\| ${end} \\| ([\\d.]+) `, 'm').exec(page);
  return Number(row?.[1] ?? Number.NaN);
};

// Polynomial lines of the two knots: A. R. Shastri, Polynomial representations of knots (from memory).
const overhand = (t: number): Place => [t ** 3 - 3 * t, t ** 4 - 4 * t * t, 0.35 * (t ** 5 - 10 * t)];
const eight = (t: number): Place => [
  1.3 * (t ** 3 - 3 * t),
  0.78 * t * (t * t - 1) * (t * t - 4),
  0.065 * (t ** 7 - 42 * t),
];

describe('docs/cord/ends.md', () => {
  it('overhand stop knot: shortens a cord by 10.1 diameters (tight open trefoil, Pieranski et al. 2001, from memory) and is 2.5 long', () => {
    const shorter = knotted(overhand, 2.3, 12).length - 24;
    expect(Math.abs(shorter / 10.1 - 1)).toBeLessThan(0.06);
    expect(Math.abs(shorter + 2.5 - figureOf('overhand stop knot'))).toBeLessThan(1);
  });

  it('figure-of-eight stop knot: shortens a cord by 13.8 diameters (from memory) and is 3.7 long', () => {
    const shorter = knotted(eight, 2.25, 14).length - 28;
    expect(Math.abs(shorter / 13.8 - 1)).toBeLessThan(0.07);
    expect(Math.abs(shorter + 3.7 - figureOf('figure-of-eight stop knot'))).toBeLessThan(1);
  });

  it('eye: the round of the rope more than the round inside (Ashley Book of Knots, no. 2728)', () => {
    const inside = 6;
    const middle = polylineLength(
      offsetCurve(
        [
          [-inside / 2, 0],
          [inside / 2, 0],
        ],
        0.5,
      ),
    );
    expect(middle).toBeCloseTo(2 * inside + figureOf('eye, its legs held by the work'), 1);
  });

  it('one crown, and a whipping of five turns about two cords', () => {
    expect(figureOf('one crown')).toBeCloseTo(2 * crown.compute(2), 1);
    expect(figureOf('whipping, five turns about two cords')).toBeCloseTo(5 * wrap.compute(2, 1) + 10, 0);
  });
});
