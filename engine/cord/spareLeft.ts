import { normalDensity, normalTail } from '../chance/normal.ts';
import { type CordFunction, cordFunction } from './cordFunction.ts';

/**
 * SPARE_LEFT: what is left on the average of an extra of z standard deviations, in standard deviations.
 *
 * A piece that takes x more than the fitted amount leaves z - x of the extra, and nothing where it runs
 * short: E[max(0, z - x)] = z F(z) + f(z), with f and F the normal density and its integral. That is what
 * being safe costs on the average, as opposed to the worst case, in which all of the extra is needed. It is
 * more than z by the little that pieces which run short want and do not get.
 *
 * Normal even where z is Student's: with two samples Student's distribution has no such mean.
 *
 * Domain: z >= 0. Source: mean of a cut normal distribution, textbook (from memory); tests add it up.
 */
export const spareLeft: CordFunction = cordFunction({
  name: 'SPARE_LEFT',
  args: [{ name: 'factor', unit: 'standard deviations', meaning: 'extra cord, in standard deviations' }],
  gives: 'extra cord that is left on the average, in standard deviations',
  compute: (factor) => (factor >= 0 ? factor * (1 - normalTail(factor)) + normalDensity(factor) : Number.NaN),
  domain: (factor) => [`${factor}>=0`],
  formula: (factor) => `${factor}*NORMDIST(${factor},0,1,TRUE())+EXP(-(${factor}*${factor})/2)/SQRT(2*PI())`,
});
