import { type CordFunction, cordFunction } from './cordFunction.ts';

/**
 * HITCH_CORD: length of cord in the turns of a hitch round a bar.
 *
 * The cord's centre line is half a cord outside the bar, so a turn is a circle of diameter B + d. The
 * climb from turn to turn is left out: for a bar as thick as the cord it would add 1.3 %, for thicker bars
 * less. Ends and crossings are the maker's own allowance.
 *
 * Domain: turns >= 0 (half turns are allowed), B >= 0, d > 0. All lengths in one unit.
 * Source: circumference of a circle.
 */
export const hitch: CordFunction = cordFunction({
  name: 'HITCH_CORD',
  args: [
    { name: 'turns', unit: 'turns', meaning: 'full turns around the bar' },
    { name: 'bar_diameter', unit: 'length', meaning: 'diameter of the bar or ring stock' },
    { name: 'cord_diameter', unit: 'length', meaning: 'diameter of the cord, in the same unit' },
  ],
  gives: 'length of cord, in the unit of the diameters',
  compute: (turns, barWidth, cord) =>
    turns >= 0 && barWidth >= 0 && cord > 0 ? turns * Math.PI * (barWidth + cord) : Number.NaN,
  domain: (turns, barWidth, cord) => [`${turns}>=0`, `${barWidth}>=0`, `${cord}>0`],
  formula: (turns, barWidth, cord) => `${turns}*PI()*(${barWidth}+${cord})`,
});
