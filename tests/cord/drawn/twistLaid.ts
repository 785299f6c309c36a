import type { Place } from '../../support/drawnFigure.ts';
import { flatCore } from './flatCore.ts';
import type { Laid } from './tighten.ts';

/**
 * A half-knot twist, two half knots a period: each cord crosses the front, and one pitch on it crosses back
 * behind. At the edge it goes in under its partner and leaves over it. `turn` is the turn of the work from
 * half knot to half knot, in radians; above 0 it runs against the winding of the cords.
 */
export function twistLaid(core: number, pitch: number, turn: number, halfKnots = 2): Laid {
  const half = (Math.max(core, 1) - 1) / 2;
  const edge = half + 1.3;
  const knot = (at: number, side: 1 | -1): Place[] => [
    [(at + 0.2) * pitch, -side * edge, 0],
    [(at + 0.15) * pitch, -side * half, side * 1.4],
    [(at - 0.15) * pitch, side * half, side * 1.4],
    [(at - 0.2) * pitch, side * edge, 0],
    [(at + 0.2) * pitch, side * (edge + 0.8), -side * 0.5],
    [(at + 0.5) * pitch, side * (edge + 1.2), 0],
    [(at + 0.8) * pitch, side * (edge + 0.8), side * 0.5],
  ];
  const turned = ([x, y, z]: Place): Place => {
    const angle = (turn * x) / pitch;
    const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
    return [x, cos * y - sin * z, sin * y + cos * z];
  };
  return {
    period: halfKnots * pitch,
    strands: [
      Array.from({ length: halfKnots }, (_, i) => knot(i, i % 2 === 0 ? 1 : -1))
        .flat()
        .map(turned),
    ],
    core: flatCore(Math.max(core, 1)),
    turn: halfKnots * turn,
    isHalfTurned: true,
  };
}
