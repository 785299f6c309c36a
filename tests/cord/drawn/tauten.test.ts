import { describe, expect, it } from 'vitest';
import { evenly, type Place, shiftBy, tauten } from './tauten.ts';
import { crownWeave } from './tautWeaves.ts';

const still = shiftBy(0, 0, 0);
const ring = (at: (t: number) => Place): readonly Place[] =>
  Array.from({ length: 240 }, (_, i) => at((2 * Math.PI * i) / 240));

/** Taut length of a closed knot; its chords fall short of the curve by well under 1 %. */
const ropelength = (at: (t: number) => Place): number => {
  const taut = tauten({ points: evenly(ring(at), still, 120), next: still, others: [] }, 5000);
  expect(taut.closest).toBeGreaterThan(0.99);
  return taut.length;
};

describe('pulling taut, held to published lengths', () => {
  it('ideal trefoil: 16.37 diameters (Knot Atlas, Ideal knots: L = 16.372861)', () => {
    const length = ropelength((t) => [
      1.1 * (Math.sin(t) + 2 * Math.sin(2 * t)),
      1.1 * (Math.cos(t) - 2 * Math.cos(2 * t)),
      -1.1 * Math.sin(3 * t),
    ]);
    expect(Math.abs(length / 16.372861 - 1)).toBeLessThan(0.01);
  });

  it('ideal figure-eight knot: 21.04 diameters (from memory)', () => {
    const length = ropelength((t) => [
      1.3 * (2 + Math.cos(2 * t)) * Math.cos(3 * t),
      1.3 * (2 + Math.cos(2 * t)) * Math.sin(3 * t),
      1.3 * Math.sin(4 * t),
    ]);
    expect(Math.abs(length / 21.04 - 1)).toBeLessThan(0.01);
  });

  it('two linked rings: a circle of radius 1 each, 2 pi (Cantarella, Kusner, Sullivan: the tight Hopf link)', () => {
    const points = evenly(
      ring((t) => [1.5 * Math.cos(t) - 0.5, 1.5 * Math.sin(t), 0.1 * Math.sin(2 * t)]),
      still,
      60,
    );
    // The other ring is this one turned a quarter about x and half about z.
    const other = {
      rows: [
        [-1, 0, 0],
        [0, 0, 1],
        [0, 1, 0],
      ],
      shift: [0, 0, 0],
    } as const;
    const taut = tauten({ points, next: still, others: [other] }, 3000);
    expect(Math.abs(taut.length / (2 * Math.PI) - 1)).toBeLessThan(0.01);
  });

  it('four strands crowned: squarely woven cords jam at 60 degrees (F. T. Peirce, 1937: crimp 0.2092)', () => {
    // Between one crossing and the next a strand is woven as in square cloth: sqrt 3 apart, 2 pi/3 long.
    const taut = tauten(crownWeave(4, 2.2), 1500);
    const xs = taut.points.map(([x]) => Math.abs(x));
    expect(Math.max(...xs)).toBeGreaterThan(Math.sqrt(3) / 2 - 0.02);
    expect(Math.min(...xs)).toBeLessThan(Math.sqrt(3) / 2 + 0.02);
    expect((2 * Math.PI) / 3 / Math.sqrt(3) - 1).toBeCloseTo(0.2092, 4);
  });
});
