import { type CordFunction, cordFunction } from './cordFunction.ts';

/**
 * CROWN_CORD: length of one strand of a crown sinnet, per length of sinnet.
 *
 * Lengths are in cord diameters. In each crown, which makes the sinnet c longer, every strand is laid over
 * one neighbour and tucked under the next, and then turns up for the following crown:
 *
 *     2 pi / 3    over one and under the other: two arcs of 60 degrees about them, of radius 1
 *     pi          half round the two cords that lie stacked at its end, with the same radius
 *     c - 1       straight up past them, as their middles are c - 1 apart
 *
 * all over c. Neither the number of strands nor the way of crowning enters: with three strands or eight they
 * settle so that they cross nearly squarely, and a round sinnet (crowned always the same way) finds the
 * twist at which its crowns lie in each other's hollows. The 60 degrees are those of round cords woven as
 * close as over one, under one allows (F. T. Peirce, The geometry of cloth structure, 1937: square cloth).
 * Two cords are stacked in a crown, so round cords reach c = 2 in a box sinnet and 1.9 in a round one;
 * below that only soft ones go, and this lies between cords that stay round (more) and that give (less).
 *
 * Domain: c > 0. Source: derived here; no publication gives it. The tests measure sinnets of 3 to 8 strands
 * drawn in space and pulled taut: within 1.5 % from c = 1.9 to 3.
 */
export const crown: CordFunction = cordFunction({
  name: 'CROWN_CORD',
  args: [{ name: 'pitch_ratio', unit: 'cord diameters', meaning: 'length of one crown along the sinnet' }],
  gives: 'length of one strand per length of sinnet',
  compute: (pitch) => (pitch > 0 ? (pitch - 1 + (5 * Math.PI) / 3) / pitch : Number.NaN),
  domain: (pitch) => [`${pitch}>0`],
  formula: (pitch) => `(${pitch}-1+5*PI()/3)/${pitch}`,
});
