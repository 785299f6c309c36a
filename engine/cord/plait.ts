import { type CordFunction, cordFunction } from './cordFunction.ts';

function plaitCord(strands: number, angle: number, pitch: number): number {
  const known = Number.isInteger(strands) && strands >= 3 && angle > 0 && angle < 90 && pitch > 0;
  if (!known) return Number.NaN;
  const a = angle * (Math.PI / 180);
  const diagonal = Math.sqrt((pitch / (2 * Math.cos(a))) ** 2 + 1);
  const turn = Math.sqrt(((pitch * a) / Math.sin(a)) ** 2 + 1);
  return (2 * ((strands - 2) * diagonal + turn)) / (strands * pitch);
}

/**
 * PLAIT_CORD: length of one strand of a flat plait (over one, under one), per length of plait.
 *
 * Lengths are in cord diameters. Each of the s strands runs from edge to edge in diagonals at angle a; the
 * next strand follows c further along, so a strand turns at the same edge every s*c, and c is the distance
 * between neighbouring bights of one edge. Between one edge and the other, over a length s*c/2 of plait,
 * it meets s - 1 others at every c/2. So that stretch has
 *
 *     s - 2 straight diagonals, each c/2 long along the plait:  c / (2 cos a) seen from above
 *     one turn at the edge, from last meeting to first, c long:  an arc of c*a / sin a seen from above
 *
 * and between meetings the centre line climbs or falls by one diameter, since cords that cross lie one on
 * the other and over and under alternate, at the edges too. Hence
 *
 *     2 ((s - 2) sqrt((c / (2 cos a))^2 + 1) + sqrt((c a / sin a)^2 + 1)) / (s c)
 *
 * 1 / cos a alone misses both: for three strands at 45 degrees lying snug (c = 1 / sin a) it gives 1.41,
 * the climbing raises that to 1.70 and the rounded turns bring it back to 1.54.
 * Not counted: cords squashed where they cross, and the roundness of each crest.
 *
 * Domain: s whole and at least 3, 0 < a < 90 degrees, c > 0.
 * Source: derived here; no publication gives it. The tests measure a drawn centre line instead.
 */
export const plait: CordFunction = cordFunction({
  name: 'PLAIT_CORD',
  args: [
    { name: 'strands', unit: 'strands', meaning: 'strands in the plait' },
    {
      name: 'angle_degrees',
      unit: 'degrees',
      meaning: 'angle of a straight diagonal to the length of the plait',
    },
    { name: 'pitch_ratio', unit: 'cord diameters', meaning: 'distance from bight to bight along one edge' },
  ],
  gives: 'length of one strand per length of plait',
  compute: plaitCord,
  domain: (strands, angle, pitch) => [
    `${strands}>=3`,
    `${strands}=INT(${strands})`,
    `${angle}>0`,
    `${angle}<90`,
    `${pitch}>0`,
  ],
  formula: (strands, angle, pitch) => {
    const a = `RADIANS(${angle})`;
    const diagonal = `SQRT((${pitch}/(2*COS(${a})))^2+1)`;
    const turn = `SQRT((${pitch}*${a}/SIN(${a}))^2+1)`;
    return `2*((${strands}-2)*${diagonal}+${turn})/(${strands}*${pitch})`;
  },
});
