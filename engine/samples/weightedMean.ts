import { findRoot } from '../chance/findRoot.ts';

/** One value with the standard deviation of its reading. */
export interface Reading {
  readonly value: number;
  readonly error: number;
}

export interface WeightedMean {
  readonly value: number;
  readonly standardError: number;
  /** How far the things themselves lie apart (standard deviation), beyond what reading them explains. */
  readonly spread: number;
  /** Standard error by the residuals alone; less than `standardError` where the readings agree by luck. */
  readonly residualError: number;
}

/**
 * Least squares for one figure that was read on several things which differ a little themselves.
 *
 * Each reading has the weight 1 / (spread^2 + error^2). The spread is the one at which the weighted squares
 * of the residuals add up to n - 1; where they stay under that even without any spread, the readings explain
 * all and the spread is zero. So the standard error, sqrt(1 / sum of weights), comes from the residuals where
 * they are the larger and from the reading errors where those are: it is never less than either says.
 *
 * Source: Mandel and Paule's rule for means of unequal quality (Analytical Chemistry, 1970; from memory).
 * With equal errors it is the textbook mean with s / sqrt(n).
 *
 * @param readings two or more, or one whose spread is given
 * @param knownSpread the spread, where it is not to be found from the readings
 */
export function weightedMean(readings: readonly Reading[], knownSpread?: number): WeightedMean {
  const degrees = readings.length - 1;
  const at = (spread: number): WeightedMean & { squares: number } => {
    // A floor well under any tape keeps a reading that claims no error at all from dividing by zero.
    const weights = readings.map(
      ({ value, error }) => 1 / Math.max(spread ** 2 + error ** 2, (1e-9 * value) ** 2),
    );
    const sum = weights.reduce((total, each) => total + each, 0);
    const value =
      readings.reduce((total, each, index) => total + each.value * (weights[index] ?? 0), 0) / sum;
    const squares = readings.reduce(
      (total, each, index) => total + (weights[index] ?? 0) * (each.value - value) ** 2,
      0,
    );
    const standardError = Math.sqrt(1 / sum);
    const residualError =
      knownSpread === undefined && degrees > 0
        ? standardError * Math.min(1, Math.sqrt(squares / degrees))
        : standardError;
    return { value, standardError, spread, residualError, squares };
  };
  if (knownSpread !== undefined || degrees < 1) return at(knownSpread ?? 0);
  const without = at(0);
  if (without.squares <= degrees) return without;
  const values = readings.map((each) => each.value);
  const range = Math.max(...values) - Math.min(...values);
  const spread = findRoot((each) => at(each).squares - degrees, 0, 2 * range) ?? range;
  return at(spread);
}
