import { type CordFunction, cordFunction } from './cordFunction.ts';

/**
 * STRIPE_CORD: length of a stripe cord, per length of bar.
 *
 * A stripe is one more strand lying along the face of a bar, over one half knot and under the next. Between
 * neighbouring half knots, one pitch c apart (in cord diameters), its centre line climbs or falls by one
 * diameter, as cords that cross lie one on the other:
 *
 *     sqrt(c^2 + 1) / c
 *
 * At pitches under about 1.7 round cords have no room for that: the face cords give way and the stripe lies
 * straighter. So this is the most it takes; the least is 1.
 *
 * Domain: c > 0. Source: derived here, as for the climbs of PLAIT_CORD.
 */
export const stripe: CordFunction = cordFunction({
  name: 'STRIPE_CORD',
  args: [{ name: 'pitch_ratio', unit: 'cord diameters', meaning: 'length of one half knot along the bar' }],
  gives: 'length of the stripe cord per length of bar',
  compute: (pitch) => (pitch > 0 ? Math.sqrt(pitch ** 2 + 1) / pitch : Number.NaN),
  domain: (pitch) => [`${pitch}>0`],
  formula: (pitch) => `SQRT(${pitch}^2+1)/${pitch}`,
});
