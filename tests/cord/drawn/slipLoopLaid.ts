import type { Place } from '../../support/drawnFigure.ts';
import { flatCore } from './flatCore.ts';
import type { Laid } from './tighten.ts';

/**
 * A slip-loop bar, two loops a period, one from each side. The left cord, whose standing part lies behind
 * its edge, goes up through its partner's last loop as a bight, over the front to the right, round its
 * partner's next bight, and back the same way. Its partner does the same from the right, behind, one pitch on.
 */
export function slipLoopLaid(core: number, pitch: number): Laid {
  const half = (Math.max(core, 1) - 1) / 2;
  const edge = half + 1.3;
  const places: readonly Place[] = [
    [-0.9, -(edge + 1), -1.2],
    [-0.65, -edge, 0],
    [-0.6, -half, 1.4],
    [-0.05, half, 1.4],
    [0, edge + 0.3, 0.4],
    [0.05, edge + 1.7, 0.2],
    [0.5, edge + 2.2, 0],
    [0.95, edge + 1.7, 0.2],
    [1, edge + 0.3, 0.4],
    [0.75, half, 1.4],
    [-0.25, -half, 1.4],
    [-0.35, -edge, 0],
    [-0.1, -(edge + 1), -1.2],
  ];
  return {
    period: 2 * pitch,
    strands: [places.map(([x, y, z]): Place => [x * pitch, y, z])],
    core: flatCore(Math.max(core, 1)),
    isHalfTurned: true,
    partnerShift: 0.5,
  };
}
