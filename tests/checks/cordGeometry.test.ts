import { describe, expect, it } from 'vitest';
import { bar } from '../../engine/cord/bar.ts';
import { braid } from '../../engine/cord/braid.ts';
import { hitch } from '../../engine/cord/hitch.ts';
import { plait } from '../../engine/cord/plait.ts';
import { wrap } from '../../engine/cord/wrap.ts';
import { climbing, offsetCurve, type Point, packedCentres, polylineLength } from '../cord/outline.ts';
import { plaitDrawn } from '../cord/plaitDrawn.ts';

const degrees = (radians: number): number => (radians * 180) / Math.PI;

/** A helix of given radius and climb per turn, walked in small steps. */
const helix = (radius: number, climb: number, steps = 20_000): number =>
  polylineLength(
    Array.from({ length: steps + 1 }, (_, i) => {
      const t = (2 * Math.PI * i) / steps;
      return [radius * Math.cos(t), radius * Math.sin(t), (climb * i) / steps];
    }),
  );

describe('published and derived helix values', () => {
  it('(cos t, sin t, t): one turn is 2 pi sqrt 2 (vector-functions example, solvelet.com)', () => {
    const turn = braid.compute(45) * 2 * Math.PI;
    expect(turn).toBeCloseTo(8.885765876, 9);
    expect(helix(1, 2 * Math.PI)).toBeCloseTo(8.885765876, 6);
  });

  it('(b cos t, b sin t, sqrt(1 - b^2) t): one turn is 2 pi (Larson and Edwards, Calculus, 12.5)', () => {
    for (const b of [0.1, 0.5, 0.9]) {
      const axial = 2 * Math.PI * Math.sqrt(1 - b * b);
      expect(braid.compute(degrees(Math.asin(b))) * axial).toBeCloseTo(2 * Math.PI, 12);
    }
  });

  it('diameter 3, pitch 10: 13.74141 per 10, at 43.3038 degrees (derived)', () => {
    const angle = degrees(Math.atan((Math.PI * 3) / 10));
    expect(angle).toBeCloseTo(43.3038, 4);
    expect(braid.compute(angle) * 10).toBeCloseTo(13.74141, 5);
    expect(helix(1.5, 10)).toBeCloseTo(13.74141, 5);
  });

  it('at 45 degrees the factor is sqrt 2', () => {
    expect(braid.compute(45)).toBeCloseTo(Math.SQRT2, 14);
  });

  it('cable screen: tan a = 2 pi (D + 2d) P / C, strand factor 1 / cos a (formula: cmcorporation.com, shield coverage; number derived)', () => {
    const [under, wire, picks, carriers, ends] = [0.2, 0.005, 10, 16, 5];
    const tangent = (2 * Math.PI * (under + 2 * wire) * picks) / carriers;
    expect(tangent).toBeCloseTo(0.824668, 6);
    const a = Math.atan(tangent);
    expect(degrees(a)).toBeCloseTo(39.5113, 4);
    const fill = (ends * picks * wire) / Math.sin(a);
    expect(fill).toBeCloseTo(0.392939, 6);
    expect(100 * (2 * fill - fill ** 2)).toBeCloseTo(63.1477, 4);
    expect(braid.compute(degrees(a))).toBeCloseTo(Math.hypot(1, tangent), 12);
  });

  it('a close wrap round one cord as thick is sqrt((pi (D + d))^2 + d^2) / d with D = d (derived)', () => {
    expect(wrap.compute(1, 1)).toBeCloseTo(Math.sqrt((Math.PI * 2) ** 2 + 1), 14);
  });
});

// Below, each centre line is drawn in space without its closed form and measured in small steps. Drawn
// with 12,000 steps a turn the chords fall short by less than 1 part in 100,000.
const shortfall = 1e-5;
const expectNear = (drawn: number, formula: number): void => {
  expect(Math.abs(drawn / formula - 1)).toBeLessThan(shortfall);
};

describe('centre lines measured', () => {
  it.each([
    [1, 1, 1.2],
    [2, 1, 1.17],
    [2, 2, 1.4],
    [4, 1, 1.2],
    [6, 3, 2.5],
  ])('bar over %d core strands, layer %d, pitch %d', (core, layer, pitch) => {
    const row: readonly Point[] = [
      [-(core - 1) / 2, 0],
      [(core - 1) / 2, 0],
    ];
    const outline = offsetCurve(row, layer);
    const over = outline.slice(0, (outline.length + 1) / 2);
    const aroundPartner = helix(1, 0) / 4;
    const drawn = polylineLength(climbing(over, pitch)) + aroundPartner;
    expectNear(drawn / pitch, bar.compute(core, layer, layer, pitch));
  });

  it.each([
    [1, [[0, 0]], 1],
    [
      2,
      [
        [-0.5, 0],
        [0.5, 0],
      ],
      1,
    ],
    [
      3,
      [
        [-0.5, -0.3],
        [0.5, -0.3],
        [0, -0.3 + Math.sqrt(0.75)],
      ],
      1.5,
    ],
    [
      4,
      [
        [-0.5, -0.5],
        [0.5, -0.5],
        [0.5, 0.5],
        [-0.5, 0.5],
      ],
      1,
    ],
    [
      5,
      [
        [-1, -0.4],
        [1, -0.4],
        [0.5, Math.sqrt(0.75) - 0.4],
        [-0.5, Math.sqrt(0.75) - 0.4],
      ],
      3,
    ],
    [7, packedCentres(7).slice(1), 1],
    [19, packedCentres(19).slice(7), 1],
  ] as const)('wrap about %d cords', (core, corners, pitch) => {
    expectNear(polylineLength(climbing(offsetCurve(corners, 1), pitch)) / pitch, wrap.compute(core, pitch));
  });

  it('braid, whatever its diameter', () => {
    for (const radius of [0.7, 1, 4]) {
      for (const angle of [20, 45, 60]) {
        const climb = (2 * Math.PI * radius) / Math.tan((angle * Math.PI) / 180);
        expectNear(helix(radius, climb) / climb, braid.compute(angle));
      }
    }
  });

  it('hitch: the climb that it leaves out is under 1.3 % even round a bar as thin as the cord', () => {
    for (const [rod, cord] of [
      [4, 4],
      [10, 4],
      [25, 3],
    ] as const) {
      const left = helix((rod + cord) / 2, cord) / hitch.compute(1, rod, cord) - 1;
      expect(left).toBeGreaterThan(0);
      expect(left).toBeLessThan(0.013);
    }
  });
});

describe('a flat plait drawn strand by strand', () => {
  const cases = [
    [3, 45, Math.SQRT2],
    [3, 30, 2],
    [4, 40, 1.6],
    [5, 45, 1.9],
    [6, 42, 1.8],
    [7, 55, 1.3],
    [8, 20, 3],
  ] as const;

  it.each(cases)('%d strands at %d degrees, bights %d apart', (strands, angle, pitch) => {
    const drawn = plaitDrawn(strands, angle, pitch);
    expect(Math.abs(drawn.ratio / plait.compute(strands, angle, pitch) - 1)).toBeLessThan(1e-4);
  });

  it.each(cases)(
    '%d strands at %d degrees, bights %d apart: crossings are where the formula has them',
    (strands, angle, pitch) => {
      const drawn = plaitDrawn(strands, angle, pitch);
      expect(drawn.crossings).toHaveLength(2 * (strands - 1));
      for (const crossing of drawn.crossings) {
        // Distance of the two centre lines: one lies on the other.
        expect(Math.abs(crossing.height - crossing.otherHeight)).toBeCloseTo(1, 6);
      }
    },
  );

  it.each(cases)(
    '%d strands at %d degrees, bights %d apart: as wide as docs/cord.md says',
    (strands, angle, pitch) => {
      const a = (angle * Math.PI) / 180;
      const width = 1 + pitch * (((strands - 2) / 2) * Math.tan(a) + Math.tan(a / 2));
      expect(plaitDrawn(strands, angle, pitch).width).toBeCloseTo(width, 4);
    },
  );

  it('crossings and edge turns matter: 1 / cos a alone is short by 8 % for three strands at 45 degrees', () => {
    const drawn = plaitDrawn(3, 45, Math.SQRT2);
    expect(drawn.ratio / braid.compute(45)).toBeGreaterThan(1.08);
  });
});
