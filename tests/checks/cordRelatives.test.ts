import { describe, expect, it } from 'vitest';
import { band } from '../../engine/cord/band.ts';
import { bar } from '../../engine/cord/bar.ts';
import type { CordFunction } from '../../engine/cord/index.ts';
import { slipLoop } from '../../engine/cord/slipLoop.ts';
import { stripe } from '../../engine/cord/stripe.ts';
import { twist } from '../../engine/cord/twist.ts';
import { zigzag } from '../../engine/cord/zigzag.ts';
import { climbing, offsetCurve, type Point, polylineLength } from '../cord/outline.ts';

// Centre lines drawn piece by piece and measured in small steps; chords fall short by less than this.
const shortfall = 2e-5;
const expectNear = (drawn: number, rule: CordFunction, values: readonly number[]): void => {
  expect(Math.abs(drawn / rule.compute(...values) - 1), `${rule.name}(${values})`).toBeLessThan(shortfall);
};

/** The closed outline that a cord follows one diameter outside n strands lying side by side. */
const around = (strands: number): readonly Point[] =>
  offsetCurve(
    [
      [-(strands - 1) / 2, 0],
      [(strands - 1) / 2, 0],
    ],
    1,
    6000,
  );
const halfOf = (outline: readonly Point[]): readonly Point[] => outline.slice(0, (outline.length + 1) / 2);

/** An arc of radius 1, walked. */
const arc = (angle: number): readonly Point[] =>
  Array.from({ length: 2001 }, (_, i): Point => {
    const t = (angle * i) / 2000;
    return [Math.cos(t), Math.sin(t)];
  });

describe('a half knot of a twist', () => {
  it.each([
    [1, 1.17, 8],
    [2, 1.17, 12],
    [2, 1.4, 10],
    [4, 1.7, 16],
  ])('core %d, pitch %d, %d half knots a turn', (core, pitch, knots) => {
    const turn = (2 * Math.PI) / knots;
    // Half the outline, and on round the edge strand by the turn.
    const half = halfOf(around(core));
    const [endX, endY] = half[half.length - 1]!;
    const onward = arc(turn).map(([x, y]): Point => [endX + 1 - x, endY - y]);
    const wound = polylineLength(climbing([...half, ...onward.slice(1)], pitch));
    const led = polylineLength(arc(Math.PI / 2 - turn));
    expectNear((wound + led) / pitch, twist, [core, pitch, knots]);
  });
});

describe('a slip loop and its way on', () => {
  it.each([
    [1, 1.17],
    [2, 1.4],
    [4, 2],
  ])('core %d, pitch %d', (core, pitch) => {
    const across = polylineLength(halfOf(around(core)));
    const roundNext = polylineLength(halfOf(around(2)));
    // Unrolled, with an even climb.
    const unrolled: readonly Point[] = [
      [0, 0],
      [2 * across + roundNext, 2 * pitch],
    ];
    expectNear(polylineLength(unrolled) / (2 * pitch), slipLoop, [core, pitch]);
  });
});

describe('a zig-zag weave', () => {
  it.each([
    [2, 1],
    [3, 1.2],
    [4, 1],
    [7, 1.5],
  ])('%d core strands two diameters apart, pitch %d', (core, pitch) => {
    const flat = Array.from({ length: core }, (_, j) => j).flatMap((j): Point[] => {
      const sign = j % 2 === 0 ? 1 : -1;
      return Array.from({ length: 2000 }, (_, i): Point => {
        const t = (Math.PI * i) / 1999;
        return [2 * j - Math.cos(t), sign * Math.sin(t)];
      });
    });
    expectNear(polylineLength(climbing(flat, pitch)) / pitch, zigzag, [core, pitch]);
  });
});

describe('a stripe', () => {
  it.each([1.17, 1.5, 2.4])('pitch %d: over one half knot and under the next', (pitch) => {
    const line = Array.from({ length: 9 }, (_, i): Point => [i * pitch, i % 2 === 0 ? 0.5 : -0.5]);
    expectNear(polylineLength(line) / (8 * pitch), stripe, [pitch]);
  });

  it('its straight climbs press into the face cords, and less the farther these lie apart', () => {
    // Least distance of the climb from (0, 1/2) to (c, -1/2) to the middle of the cord that it crests, at (0, -1/2).
    const distance = (pitch: number): number => {
      let least = Number.POSITIVE_INFINITY;
      for (let i = 0; i <= 10_000; i += 1) {
        const t = i / 10_000;
        least = Math.min(least, Math.hypot(t * pitch, 1 - t));
      }
      return least;
    };
    expect(distance(1.17)).toBeCloseTo(0.76, 2);
    expect(distance(2)).toBeGreaterThan(0.89);
  });

  it('is within 4 % of hard cords of which each gives way by half (F. T. Peirce, cloth geometry, 1937; from memory)', () => {
    // l = D t + straight; p = (l - D t) cos t + D sin t; h = (l - D t) sin t + D (1 - cos t); here D = 2, h = 1.
    const thread = (pitch: number): number => {
      let [low, high] = [0, Math.PI / 3];
      const straight = (t: number): number => (pitch - 2 * Math.sin(t)) / Math.cos(t);
      for (let halving = 0; halving < 60; halving += 1) {
        const t = (low + high) / 2;
        if (straight(t) * Math.sin(t) + 2 * (1 - Math.cos(t)) < 1) low = t;
        else high = t;
      }
      return straight(low) + 2 * low;
    };
    for (const pitch of [1.8, 2, 2.5, 3]) {
      const ratio = stripe.compute(pitch) / (thread(pitch) / pitch);
      expect(ratio, `pitch ${pitch}`).toBeLessThan(1);
      expect(ratio, `pitch ${pitch}`).toBeGreaterThan(0.93);
    }
  });
});

describe('a stitched band', () => {
  it.each([
    [2, 1, 1.17, 2],
    [2, 2, 1.375, 3],
    [4, 1, 1.4, 1],
  ])('core %d, layers %d, pitch %d, %d half knots a stitch', (core, layers, pitch, knots) => {
    // From the middle of a side loop of the outermost layer to that of the other edge.
    const outermost = around(core).map(([x]) => x + Math.sign(x) * (layers - 1));
    const width = Math.max(...outermost) - Math.min(...outermost);
    const stitch: readonly Point[] = [
      [0, 0],
      [knots * pitch, width],
    ];
    const drawn = polylineLength(stitch) + polylineLength(arc(Math.PI));
    expectNear(drawn / (knots * pitch), band, [core, layers, pitch, knots]);
  });
});

describe('rules of thumb for the relatives of the bar', () => {
  it('working cords of a twist four to five times the finished length (common practice, no source)', () => {
    for (const perTurn of [10, 12]) {
      expect(twist.compute(1, 1.17, perTurn)).toBeGreaterThan(4);
      // The packed twist over two core strands is the upper end; the rule is stated to a whole length.
      expect(twist.compute(2, 1.17, perTurn)).toBeLessThan(5.25);
    }
  });

  it('3 1/2 to 4 times for each end, 7 to 8 doubled (a macrame guide, macramelovers.com, "Measuring cord lengths"): a core one strand wide, not packed', () => {
    for (const rule of [bar.compute(1, 1, 1, 1.3), twist.compute(1, 1.3, 12)]) {
      expect(rule).toBeGreaterThan(3.5);
      expect(rule).toBeLessThan(4);
    }
  });

  it('macrame about three or four times the finished length (L. Philpott, The Ultimate Book of Decorative Knots, p. 20): the same, looser', () => {
    for (const pitch of [1.4, 1.7]) {
      expect(bar.compute(1, 1, 1, pitch)).toBeGreaterThan(3);
      expect(bar.compute(1, 1, 1, pitch)).toBeLessThan(4);
    }
  });
});
