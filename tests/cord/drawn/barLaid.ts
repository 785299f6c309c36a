import type { Place } from '../../support/drawnFigure.ts';
import { flatCore } from './flatCore.ts';
import type { Laid } from './tighten.ts';

/**
 * A knotted bar as a maker lays it, two half knots a period. The over cord crosses the front, goes under its
 * partner's bight at the edge, out into a bight of its own, and back across the front one pitch on. Its
 * partner does the same behind: it is the same line, turned half about the bar.
 */
export function barLaid(core: number, pitch: number): Laid {
  const half = (Math.max(core, 1) - 1) / 2;
  const edge = half + 1.3;
  const knot = (at: number, side: 1 | -1): Place[] => [
    [(at + 0.2) * pitch, -side * edge, 0],
    [(at + 0.15) * pitch, -side * half, 1.4],
    [(at - 0.15) * pitch, side * half, 1.4],
    [(at - 0.2) * pitch, side * edge, 0],
    [(at + 0.5) * pitch, side * (edge + 1.2), -0.6],
  ];
  return {
    period: 2 * pitch,
    strands: [[...knot(0, 1), ...knot(1, -1)]],
    core: flatCore(Math.max(core, 1)),
    isHalfTurned: true,
  };
}
