import { type CordFunction, cordFunction } from './cordFunction.ts';

function zigzagCord(core: number, pitch: number): number {
  if (!(Number.isInteger(core) && core >= 2 && pitch > 0)) return Number.NaN;
  return Math.sqrt((core * Math.PI) ** 2 + pitch ** 2) / pitch;
}

/**
 * ZIGZAG_CORD: length of the working cord of a zig-zag weave, per length of weave.
 *
 * Lengths are in cord diameters. One cord goes over and under n straight core strands by turns, round the
 * last and back, under where it was over: a figure of eight about two strands, a woven band about more. The
 * working cord passes between neighbouring strands, which so lie two diameters apart, and its centre line
 * goes half round each of them at radius 1; a pass from edge to edge goes on by c:
 *
 *     sqrt( (n pi)^2 + c^2 ) / c
 *
 * Assumed: hard round cords. That is the most it takes: soft cord, squeezed between the core strands to two
 * thirds of its thickness, would take two thirds of it.
 *
 * Domain: n whole and at least 2, c > 0. Source: derived here; the tests pull a drawn weave tight instead.
 */
export const zigzag: CordFunction = cordFunction({
  name: 'ZIGZAG_CORD',
  args: [
    { name: 'core_strands', unit: 'strands', meaning: 'core strands lying flat, 2 or more' },
    {
      name: 'pitch_ratio',
      unit: 'cord diameters',
      meaning: 'way along the weave in one pass from edge to edge',
    },
  ],
  gives: 'length of the working cord per length of weave',
  compute: zigzagCord,
  domain: (core, pitch) => [`${core}>=2`, `${core}=INT(${core})`, `${pitch}>0`],
  formula: (core, pitch) => `SQRT((${core}*PI())^2+${pitch}^2)/${pitch}`,
});
