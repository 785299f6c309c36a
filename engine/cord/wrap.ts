import { type CordFunction, cordFunction } from './cordFunction.ts';

function wrapCord(core: number, pitch: number): number {
  if (!(Number.isInteger(core) && core >= 1 && pitch > 0)) return Number.NaN;
  const hull = Math.ceil(Math.sqrt(12 * core - 3)) - 3;
  return Math.sqrt((hull + 2 * Math.PI) ** 2 + pitch ** 2) / pitch;
}

/**
 * WRAP_CORD: cord that a wrap or whipping takes, per length that it covers.
 *
 * Lengths are in cord diameters; wrapping and wrapped cords are equally thick. A turn's centre line keeps
 * one diameter outside the centres of the n wrapped cords, so it is as long as the outline of those
 * centres plus a full circle of radius 1, and it climbs by the pitch c (1 where turns touch):
 *
 *     sqrt((hull(n) + 2*pi)^2 + c^2) / c          hull(n) = ceil(sqrt(12 n - 3)) - 3
 *
 * hull is the outline of n centres packed in triangles: 0 2 3 4 5 6 6 for n = 1..7 (seven is six round
 * one), 7 for 8, 12 for 19, 18 for 37. For n = 1 and c = 1 it is a helix about a cord of the same
 * thickness. A dent in the outline is counted in full: that is up to 2.3 % more cord (at n = 6) than a
 * packed bundle takes, an error on the side of not running short.
 *
 * Domain: n whole and at least 1 (a wrap round nothing has no length), c > 0. Rounding up is safe here:
 * the root is either a whole number exactly or well away from one.
 * templates/families.csv has hull + 3 without its rounding up, over 3, as the width of a bundle (of wraps and of
 * round braids over a core); tests/cord/bundle.test.ts holds the two together.
 * Source of hull: half the least perimeter of n hexagons is ceil(sqrt(12 n - 3)) (H. Harborth; OEIS
 * A135711). That a packed bundle is near that least outline is our assumption.
 */
export const wrap: CordFunction = cordFunction({
  name: 'WRAP_CORD',
  args: [
    { name: 'core_strands', unit: 'strands', meaning: 'cords that are wrapped, as thick as the wrap' },
    {
      name: 'pitch_ratio',
      unit: 'cord diameters',
      meaning: 'distance from turn to turn; 1 where turns touch',
    },
  ],
  gives: 'length of cord per length covered',
  compute: wrapCord,
  domain: (core, pitch) => [`${core}>=1`, `${core}=INT(${core})`, `${pitch}>0`],
  formula: (core, pitch) => `SQRT((ROUNDUP(SQRT(12*${core}-3),0)-3+2*PI())^2+${pitch}^2)/${pitch}`,
});
