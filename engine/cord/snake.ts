import { type CordFunction, cordFunction } from './cordFunction.ts';

/** Outline of three cords side by side, half a cord outside them: twice 2 straight, and a circle of radius 1. */
const outline = 4 + 2 * Math.PI;

/**
 * SNAKE_CORD: length of one of the two cords of a row of snake knots, per length of row.
 *
 * Lengths are in cord diameters. By turns each cord goes round the other and is tucked up through the
 * other's last loop, so along one side a bight follows every c and the two cords' loops lie c/2 apart. Seen
 * from the end, a cord runs round the outline of three cords side by side (its own two strands lie on the
 * far side of the other's two): 4 + 2 pi. Along the row it rises from under one loop of the other cord
 * to the top of its own, past the next: 3 c/2 + 1; and comes down to hook under: c/2 + 1. Together
 *
 *     sqrt((4 + 2 pi)^2 + (2 c + 2)^2) / c
 *
 * Domain: c > 0.
 * Source: derived here; no publication gives it. The tests measure knots drawn in space and pulled taut.
 */
export const snake: CordFunction = cordFunction({
  name: 'SNAKE_CORD',
  args: [
    { name: 'pitch_ratio', unit: 'cord diameters', meaning: 'distance from bight to bight along one side' },
  ],
  gives: 'length of one of the two cords per length of row',
  compute: (pitch) => (pitch > 0 ? Math.sqrt(outline ** 2 + (2 * pitch + 2) ** 2) / pitch : Number.NaN),
  domain: (pitch) => [`${pitch}>0`],
  formula: (pitch) => `SQRT((4+2*PI())^2+(2*${pitch}+2)^2)/${pitch}`,
});
