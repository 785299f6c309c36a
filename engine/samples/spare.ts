import { studentChance, studentQuantile } from '../chance/student.ts';

/** What is known of how much cord the next piece will take. Ratios are shares of the fitted amount. */
export interface CordSpread {
  /** How far pieces differ from one another (standard deviation). */
  readonly spreadRatio: number;
  /** How far the fitted amount itself may be off (standard error), by the same residuals. */
  readonly fitErrorRatio: number;
  /** What reading the tape alone makes of the two: the next piece is measured by the same tape. */
  readonly readingErrorRatio: number;
  /** Degrees of freedom of the spread; Infinity where it is assumed and not found from samples. */
  readonly degrees: number;
}

export interface Spare {
  /** Extra cord to cut, as a share of the fitted amount, so that one cord in 1 / chance runs short. */
  readonly extraRatio: number;
  /** What is left of that cut on the average, as a share of the fitted amount. */
  readonly expectedOffcutRatio: number;
  /** Cord in pieces that ran short and are made again, for each good piece, as a share of the fitted amount. */
  readonly expectedLossRatio: number;
}

/**
 * Extra cord for a chosen chance of running short, by the prediction error of one new piece: its own spread
 * and the error of the fit, at the one-sided quantile of Student's t.
 *
 * The expected offcut is the mean of what is left, E[max(0, cut - taken)] = s (z F(z) + f(z)) with f and F
 * the normal density and its integral and z = extra / s: what being safe costs on the average, as opposed
 * to the worst case, in which all of the extra is needed. Normal even where the quantile is Student's: with
 * two samples Student's has no such mean.
 * Source: textbook prediction interval, and the mean of a cut normal distribution (from memory).
 *
 * @param chanceOfShort above 0 and below 0.5
 */
export function spareFor(spread: CordSpread, chanceOfShort: number): Spare {
  const found = Math.hypot(spread.spreadRatio, spread.fitErrorRatio);
  // The tape's error is known, not found from a few samples, so it goes by the normal quantile. The larger rules.
  const extraRatio = Math.max(
    studentQuantile(1 - chanceOfShort, spread.degrees) * found,
    studentQuantile(1 - chanceOfShort, Number.POSITIVE_INFINITY) * spread.readingErrorRatio,
  );
  // A cord that ran short is as good as lost, and its successor may run short as well.
  const expectedLossRatio = (chanceOfShort / (1 - chanceOfShort)) * (1 + extraRatio);
  const error = Math.max(found, spread.readingErrorRatio);
  if (error === 0) return { extraRatio, expectedOffcutRatio: extraRatio, expectedLossRatio };
  const z = extraRatio / error;
  const density = Math.exp(-(z ** 2) / 2) / Math.sqrt(2 * Math.PI);
  const below = studentChance(z, Number.POSITIVE_INFINITY);
  return { extraRatio, expectedOffcutRatio: error * (z * below + density), expectedLossRatio };
}
