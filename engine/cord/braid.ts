import { type CordFunction, cordFunction } from './cordFunction.ts';

/**
 * BRAID_CORD: length of one strand of a round braid, per length of braid.
 *
 * The strand is a helix. Unrolled, it is the long side of a right triangle whose short side is the braid's
 * own length and whose angle is the braid angle a, whatever the diameter: 1 / cos a.
 * Going over and under the other strands adds a little that this leaves out; a sample shows how much.
 *
 * Domain: 0 <= a < 90 degrees. Source: the helix; the same factor is used for the strands of cable
 * screens, where tan a = 2 pi (D + 2d) P / C (see the tests). The native text takes RADIANS, not PI()/180:
 * hyperformula's PI() stops at 14 decimals, and near 90 degrees the cosine magnifies that.
 */
export const braid: CordFunction = cordFunction({
  name: 'BRAID_CORD',
  args: [{ name: 'angle_degrees', unit: 'degrees', meaning: 'angle of a strand to the length of the braid' }],
  gives: 'length of one strand per length of braid',
  compute: (angle) => (angle >= 0 && angle < 90 ? 1 / Math.cos(angle * (Math.PI / 180)) : Number.NaN),
  domain: (angle) => [`${angle}>=0`, `${angle}<90`],
  formula: (angle) => `1/COS(RADIANS(${angle}))`,
});
