import { manyDegrees, studentExceeded } from '../chance/student.ts';
import { type CordFunction, cordFunction } from './cordFunction.ts';

/** A column of products asks the same few questions row by row. */
const known = new Map<string, number>();

function factor(chance: number, degrees: number): number {
  if (!(chance > 0 && chance < 0.5 && degrees >= 1 && Number.isInteger(degrees))) return Number.NaN;
  const question = `${chance} ${degrees}`;
  const before = known.get(question);
  if (before !== undefined) return before;
  if (known.size > 1000) known.clear();
  const found = studentExceeded(chance, degrees);
  known.set(question, found);
  return found;
}

/**
 * SPARE_FACTOR: how many standard deviations of extra cord let one piece in 1 / chance run short.
 *
 * It is the value that Student's t with these degrees of freedom exceeds with the chosen chance, as the
 * standard deviation itself is known from a few samples only. From a million degrees on it is the normal
 * distribution's, for a standard deviation that is not found from samples but assumed or known.
 *
 * In a workbook it is TINV, which every spreadsheet program has; TINV counts both tails, hence twice the
 * chance. Measured against 40-digit arithmetic: LibreOffice 7.4 and IronCalc to 1e-13 up to 1,000 degrees,
 * HyperFormula's own TINV to 1e-7 only, which is why the engine computes it itself.
 *
 * Domain: chance above 0 and below 0.5, degrees whole and 1 or more.
 * Source: textbook prediction interval (from memory); Student's t as in engine/chance/student.ts.
 */
export const spareFactor: CordFunction = cordFunction({
  name: 'SPARE_FACTOR',
  args: [
    { name: 'chance', unit: 'share', meaning: 'chance of running short, 0.02 for one piece in fifty' },
    {
      name: 'degrees',
      unit: 'degrees of freedom',
      meaning: 'of the standard deviation: samples less one; 1000000 where it is not from samples',
    },
  ],
  gives: 'extra cord in standard deviations',
  compute: factor,
  domain: (chance, degrees) => [
    `${chance}>0`,
    `${chance}<0.5`,
    `${degrees}>=1`,
    `${degrees}=INT(${degrees})`,
  ],
  formula: (chance, degrees) =>
    `IF(${degrees}>=${manyDegrees},-NORMSINV(${chance}),TINV(2*${chance},${degrees}))`,
});
