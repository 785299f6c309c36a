import type { Place } from '../../support/drawnFigure.ts';
import { flatCore } from './flatCore.ts';
import type { Laid } from './tighten.ts';

/**
 * A bar with a stripe along its face, two half knots a period: the stripe lies over the first crossing of the
 * over cord and under the second. Strands: over cord, under cord, stripe.
 */
export function stripeLaid(core: number, pitch: number): Laid {
  const half = (core - 1) / 2;
  const edge = half + 1.3;
  const knot = (at: number, side: 1 | -1, crest: number): Place[] => [
    [(at + 0.2) * pitch, -side * edge, 0],
    [(at + 0.15) * pitch, -side * half, 1.4],
    [at * pitch, 0, crest],
    [(at - 0.15) * pitch, side * half, 1.4],
    [(at - 0.2) * pitch, side * edge, 0],
    [(at + 0.5) * pitch, side * (edge + 1.2), -0.6],
  ];
  const turned = ([x, y, z]: Place): Place => [x, -y, -z];
  return {
    period: 2 * pitch,
    strands: [
      [...knot(0, 1, 1.2), ...knot(1, -1, 2.6)],
      [...knot(0, 1, 1.2), ...knot(1, -1, 1.2)].map(turned),
      [
        [-0.5 * pitch, 0, 1.9],
        [0, 0, 2.6],
        [0.5 * pitch, 0, 1.9],
        [pitch, 0, 1.2],
      ],
    ],
    core: flatCore(core),
  };
}
