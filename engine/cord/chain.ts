import { type CordFunction, cordFunction } from './cordFunction.ts';

/** Outline of three cords side by side, half a cord outside them: twice 2 straight, and a circle of radius 1. */
const outline = 4 + 2 * Math.PI;

/**
 * CHAIN_CORD: length of cord in a plain chain (one cord, each loop drawn through the one before), per
 * length of chain.
 *
 * Lengths are in cord diameters, and each loop makes the chain c longer. Seen from the end of the chain, a
 * loop runs round the outline of three cords side by side: out, round the two legs of the next loop that
 * come through it, back, and behind: 4 + 2 pi. Along the chain its first leg goes up by c + 1 (from under
 * the loop before to the top of its own), its second down again by as much, and the strand behind on by c:
 *
 *     sqrt((4 + 2 pi)^2 + (3 c + 2)^2) / c
 *
 * Domain: c > 0; round cords can come as close as about c = 2.
 * Source: derived here; no publication gives it. The tests measure a chain drawn in space and pulled taut:
 * within 1 % from c = 2 to 4.
 */
export const chain: CordFunction = cordFunction({
  name: 'CHAIN_CORD',
  args: [
    { name: 'pitch_ratio', unit: 'cord diameters', meaning: 'distance from loop to loop along the chain' },
  ],
  gives: 'length of cord per length of chain',
  compute: (pitch) => (pitch > 0 ? Math.sqrt(outline ** 2 + (3 * pitch + 2) ** 2) / pitch : Number.NaN),
  domain: (pitch) => [`${pitch}>0`],
  formula: (pitch) => `SQRT((4+2*PI())^2+(3*${pitch}+2)^2)/${pitch}`,
});
