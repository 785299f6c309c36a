import { describe, expect, it } from 'vitest';
import {
  bandStrokes,
  type Strokes,
  stripeStrokes,
  type Woven,
  weaveStrokes,
} from '../../../engine/export/cards/weaveStrokes.ts';

const woven: Woven = {
  fromMm: 10,
  toMm: 110,
  widthMm: 16,
  diameterMm: 4,
  pitchMm: 5,
  angleDegrees: 40,
  overStrands: 2,
  underStrands: 2,
  passesOver: 1,
};
const families = ['bar', 'twist', 'zig-zag', 'wrap', 'round braid', 'flat plait'];

const points = (strokes: readonly Strokes[]) => strokes.flatMap(({ lines }) => lines.flat());

describe('the strokes of a weave', () => {
  it.each(families)('of a %s lie within the woven part, and fill its width', (family) => {
    const places = points(weaveStrokes(family, woven));
    expect(places.length).toBeGreaterThan(20);
    const across = places.map(([, y]) => Math.abs(y));
    // Centre lines are half a cord inside the edge.
    expect(Math.max(...across)).toBeCloseTo((16 - 4) / 2, 1);
    expect(Math.min(...places.map(([x]) => x))).toBeGreaterThanOrEqual(10 - 1e-9);
    expect(Math.max(...places.map(([x]) => x))).toBeLessThanOrEqual(110 + 1e-9);
  });

  it.each(families)('of a %s are none where nothing is woven', (family) => {
    expect(weaveStrokes(family, { ...woven, toMm: 10 })).toEqual([]);
  });

  it.each(['bar', 'twist', 'zig-zag', 'wrap'])('of a %s are none without a pitch', (family) => {
    expect(weaveStrokes(family, { ...woven, pitchMm: null })).toEqual([]);
  });

  it('are none for a family that is not drawn', () => {
    expect(weaveStrokes('measured', woven)).toEqual([]);
  });

  it('of a bar lay the over cord across once for each half knot, from side to side', () => {
    const over = weaveStrokes('bar', woven).find(({ cord }) => cord === 'over');
    expect(over?.lines).toHaveLength(100 / 5);
    const sides = over?.lines.map((line) => Math.sign(line[1]?.[1] ?? 0)) ?? [];
    expect(sides.slice(0, 4)).toEqual([1, -1, 1, -1]);
  });

  it('of a twist lay both cords across in turn, from the same side', () => {
    const strokes = weaveStrokes('twist', woven);
    expect(strokes.map(({ cord, lines }) => [cord, lines.length])).toEqual([
      ['over', 10],
      ['under', 10],
    ]);
    for (const line of strokes.flatMap(({ lines }) => lines))
      expect(line[0]?.[1]).toBeLessThan(line[1]?.[1] ?? 0);
  });

  it('of a stripe show over every second half knot, and those of a band every stitch from edge to edge', () => {
    const stripe = stripeStrokes(woven).lines;
    expect(stripe).toHaveLength(10);
    expect(stripe[1]).toEqual([
      [20, 0],
      [25, 0],
    ]);
    const [first = [], second = []] = bandStrokes(woven, 2, 2.5).lines;
    expect(first.slice(0, 3)).toEqual([
      [10, -6],
      [22.5, 6],
      [35, -6],
    ]);
    // The second cord crosses the first.
    expect(second.map(([, across]) => across)).toEqual(first.map(([, across]) => -across));
    expect(stripeStrokes({ ...woven, pitchMm: null }).lines).toEqual([]);
    expect(bandStrokes({ ...woven, pitchMm: null }, 1, 2).lines).toEqual([]);
  });

  it('of a wrap have one turn for each pitch', () => {
    expect(weaveStrokes('wrap', woven)[0]?.lines).toHaveLength(100 / 5);
  });

  it('of a round braid cross its middle line at the braid angle', () => {
    const middle = weaveStrokes('round braid', woven)
      .flatMap(({ lines }) => lines)
      .flatMap((line) => line.slice(1).map((to, at) => [line[at] ?? to, to] as const))
      .filter(([one, other]) => one[1] * other[1] < 0 || one[1] === 0);
    expect(middle.length).toBeGreaterThan(4);
    for (const [one, other] of middle) {
      const slope = Math.abs((other[1] - one[1]) / (other[0] - one[0]));
      // A chord of the sine is a little less steep than the sine in its middle.
      expect(Math.atan(slope) * (180 / Math.PI)).toBeCloseTo(40, 0);
    }
  });

  it.each(['round braid', 'flat plait'])(
    'of a %s lie over once and under once at every crossing',
    (family) => {
      const strokes = weaveStrokes(family, {
        ...woven,
        overStrands: 3,
        underStrands: family === 'flat plait' ? 2 : 3,
      });
      // Below come the pieces that lie under, then those over. Two pieces that cross must be one of each.
      const middles = strokes.flatMap(({ lines }, order) =>
        lines
          .filter((line) => line.length !== 3 || family !== 'flat plait')
          .map((line) => {
            const [from, to] = [line[0], line.at(-1)] as const;
            return {
              order,
              x: ((from?.[0] ?? 0) + (to?.[0] ?? 0)) / 2,
              y: ((from?.[1] ?? 0) + (to?.[1] ?? 0)) / 2,
            };
          }),
      );
      const half = strokes.length / 2;
      let met = 0;
      for (const one of middles.filter(({ x }) => x > 20 && x < 100)) {
        const there = middles.filter((each) => Math.hypot(each.x - one.x, each.y - one.y) < 1e-6);
        if (there.length !== 2) continue;
        met += 1;
        expect(there.filter(({ order }) => order < half)).toHaveLength(1);
      }
      expect(met).toBeGreaterThan(20);
    },
  );

  it('stay few, whatever the figures', () => {
    for (const family of families) {
      const strokes = weaveStrokes(family, { ...woven, toMm: 1e7, pitchMm: 0.001, angleDegrees: 89.9 });
      expect(points(strokes).length).toBeLessThan(300_000);
    }
  });
});
