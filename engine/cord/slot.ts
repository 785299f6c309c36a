import { type CordFunction, cordFunction } from './cordFunction.ts';

/**
 * STRANDS_ACROSS: strands that lie side by side in a slot, floor(s / d).
 *
 * 0.3 / 0.1 is 2.9999999999999996 in binary, so a billionth of a strand is added before cutting down. An
 * addition is spelled the same everywhere; ROUND is not, since programs differ on ties.
 *
 * Domain: s >= 0, d > 0, in one unit. INT is only ever given a number that is not negative, where
 * cutting and rounding down are the same.
 * Source: counting.
 */
export const slot: CordFunction = cordFunction({
  name: 'STRANDS_ACROSS',
  args: [
    { name: 'slot_width', unit: 'length', meaning: 'inside width of the slot' },
    { name: 'cord_diameter', unit: 'length', meaning: 'diameter of the cord, in the same unit' },
  ],
  gives: 'whole strands that lie side by side',
  compute: (width, cord) => (width >= 0 && cord > 0 ? Math.floor(width / cord + 0.000000001) : Number.NaN),
  domain: (width, cord) => [`${width}>=0`, `${cord}>0`],
  formula: (width, cord) => `INT(${width}/${cord}+0.000000001)`,
});
