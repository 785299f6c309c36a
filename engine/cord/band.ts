import { type CordFunction, cordFunction } from './cordFunction.ts';

function bandCord(core: number, layers: number, pitch: number, knotsPassed: number): number {
  const known =
    core >= 0 && Number.isInteger(layers) && layers >= 1 && layers <= 6 && pitch > 0 && knotsPassed > 0;
  if (!known) return Number.NaN;
  const width = Math.max(core - 1, 0) + 2 * layers;
  const along = knotsPassed * pitch;
  return (Math.sqrt(width ** 2 + along ** 2) + Math.PI) / along;
}

/**
 * BAND_CORD: length of a band cord stitched over the face of a finished bar, per length of bar.
 *
 * Lengths are in cord diameters. The cord crosses the face from the side loops of one edge to those of the
 * other, n - 1 + 2K away in a bar of K layers, while it goes on by m half knots of pitch c; there it goes
 * round under a side loop, half a circle of radius 1, and back across. A cross-stitched band is two such
 * cords, each of this length:
 *
 *     ( sqrt( (n - 1 + 2K)^2 + (m c)^2 ) + pi ) / (m c)
 *
 * Assumed: a band cord as thick as the bar's; a thinner one, of t diameters, saves (1 - t) pi / 2 a stitch.
 *
 * Domain: n >= 0 (a bare bar is as wide as one strand), K whole and 1..6, c > 0, m > 0.
 * Source: derived here; no publication gives it.
 */
export const band: CordFunction = cordFunction({
  name: 'BAND_CORD',
  args: [
    { name: 'core_strands', unit: 'strands', meaning: 'core strands lying side by side' },
    { name: 'layers', unit: 'layers', meaning: 'layers of the bar, at most 6' },
    { name: 'pitch_ratio', unit: 'cord diameters', meaning: 'length of one half knot along the bar' },
    {
      name: 'knots_passed',
      unit: 'half knots',
      meaning: 'half knots that one stitch passes from edge to edge',
    },
  ],
  gives: 'length of one band cord per length of bar',
  compute: bandCord,
  domain: (core, layers, pitch, knots) => [
    `${core}>=0`,
    `${layers}>=1`,
    `${layers}<=6`,
    `${layers}=INT(${layers})`,
    `${pitch}>0`,
    `${knots}>0`,
  ],
  formula: (core, layers, pitch, knots) =>
    `(SQRT((MAX(${core}-1,0)+2*${layers})^2+(${knots}*${pitch})^2)+PI())/(${knots}*${pitch})`,
});
