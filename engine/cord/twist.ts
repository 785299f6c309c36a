import { type CordFunction, cordFunction } from './cordFunction.ts';

function twistCord(core: number, pitch: number, knotsPerTurn: number): number {
  if (!(core >= 0 && pitch > 0 && knotsPerTurn >= 4)) return Number.NaN;
  const turn = (2 * Math.PI) / knotsPerTurn;
  const around = Math.max(core - 1, 0) + Math.PI + turn;
  return (Math.sqrt(around ** 2 + pitch ** 2) + Math.PI / 2 - turn) / pitch;
}

/**
 * TWIST_CORD: cord that one working cord of a half-knot twist takes, per length of twist.
 *
 * Lengths are in cord diameters. The same cord is laid first in every half knot, so a working cord that has
 * crossed the front goes on behind: it winds round the core in one sense, half a turn each half knot, and
 * the bar turns after it, once in N half knots. So a half knot carries the cord along half the outline of
 * the n core strands, n - 1 straight and pi round as in BAR_CORD, and a further 2 pi / N round; at the
 * partner, where a bar's cord is led back by a quarter turn of radius 1, it is led back by 2 pi / N less:
 *
 *     ( sqrt( (n - 1 + pi + 2 pi/N)^2 + c^2 ) + pi/2 - 2 pi/N ) / c
 *
 * What the turning adds to the winding it saves at the partner, almost: a twist takes about what a bar takes.
 * Assumed: a flat core turns with the bar, so that every half knot crosses its flat side. That the bar turns
 * with the winding, not against it, is found by the tests: a drawn twist pulled tight is shortest so.
 *
 * Domain: n >= 0 (as in BAR_CORD), c > 0, N >= 4 (with fewer, a quarter turn would be used up).
 * Source: derived here; no publication gives it.
 */
export const twist: CordFunction = cordFunction({
  name: 'TWIST_CORD',
  args: [
    { name: 'core_strands', unit: 'strands', meaning: 'core strands lying side by side' },
    { name: 'pitch_ratio', unit: 'cord diameters', meaning: 'length of one half knot along the twist' },
    {
      name: 'knots_per_turn',
      unit: 'half knots',
      meaning: 'half knots in which the twist turns once round, 4 or more',
    },
  ],
  gives: 'length of one working cord per length of twist',
  compute: twistCord,
  domain: (core, pitch, knots) => [`${core}>=0`, `${pitch}>0`, `${knots}>=4`],
  formula: (core, pitch, knots) =>
    `(SQRT((MAX(${core}-1,0)+PI()+2*PI()/${knots})^2+${pitch}^2)+PI()/2-2*PI()/${knots})/${pitch}`,
});
