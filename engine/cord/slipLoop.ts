import { type CordFunction, cordFunction } from './cordFunction.ts';

function slipLoopCord(core: number, pitch: number): number {
  if (!(core >= 0 && pitch > 0)) return Number.NaN;
  const loop = 2 * (Math.max(core - 1, 0) + Math.PI) + 1 + Math.PI;
  return Math.sqrt(loop ** 2 + (2 * pitch) ** 2) / (2 * pitch);
}

/**
 * SLIP_LOOP_CORD: cord that one working cord of a slip-loop bar takes, per length of bar.
 *
 * Lengths are in cord diameters. Loops are pulled through one another from either side by turns, each as a
 * bight that goes through the last loop, across the core (n strands side by side, see BAR_CORD), round the
 * two parts of the next loop, and back the same way. So for each of its loops a working cord goes twice
 * along half the outline of the core, n - 1 straight and pi round, and half round two strands lying
 * together, 1 straight and pi round, while the bar grows by two pitches: one loop from either side.
 *
 *     sqrt( (2 (n - 1 + pi) + 1 + pi)^2 + (2c)^2 ) / (2c)
 *
 * Domain: n >= 0 (a bare bar is as wide as one strand), c > 0.
 * Source: derived here; no publication gives it. The tests pull a drawn bar tight instead.
 */
export const slipLoop: CordFunction = cordFunction({
  name: 'SLIP_LOOP_CORD',
  args: [
    { name: 'core_strands', unit: 'strands', meaning: 'core strands lying side by side' },
    {
      name: 'pitch_ratio',
      unit: 'cord diameters',
      meaning: 'length of one loop along the bar, loops of both sides counted',
    },
  ],
  gives: 'length of one working cord per length of bar',
  compute: slipLoopCord,
  domain: (core, pitch) => [`${core}>=0`, `${pitch}>0`],
  formula: (core, pitch) => `SQRT((2*(MAX(${core}-1,0)+PI())+1+PI())^2+(2*${pitch})^2)/(2*${pitch})`,
});
