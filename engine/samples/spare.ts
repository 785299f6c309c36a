import { manyDegrees } from '../chance/student.ts';
import { spareFactor } from '../cord/spareFactor.ts';
import { spareLeft } from '../cord/spareLeft.ts';

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

/** Two figures that stand for all of it: they go into weaves.csv and the sheets reckon with them. */
export interface PredictionError {
  /** Standard deviation of one new piece about the fitted amount, as a share of it. */
  readonly ratio: number;
  /** Degrees of freedom; Infinity where the ratio is not found from samples. */
  readonly degrees: number;
}

export interface Spare {
  /** The error that the other three figures come from. */
  readonly error: PredictionError;
  /** Extra cord to cut, as a share of the fitted amount, so that one piece in 1 / chance runs short. */
  readonly extraRatio: number;
  /** What is left of that cut on the average, as a share of the fitted amount. */
  readonly expectedOffcutRatio: number;
  /** Cord in pieces that ran short and are made again, for each good piece, as a share of the fitted amount. */
  readonly expectedLossRatio: number;
}

/**
 * Extra cord for a chosen chance of running short, by the prediction error of one new piece: its own spread
 * and the error of the fit, at the one-sided quantile of Student's t. The sheets Weaves, Products and Cuts say
 * the same with the same functions.
 *
 * All working cords of a piece are taken to run with the piece: samples measure them together, so that the
 * spread is the piece's, and the chance is that of a piece.
 *
 * The tape's error is known and not found from a few samples, so it goes by the normal quantile. Of the two the
 * one that asks for more rules.
 * Source: textbook prediction interval (from memory).
 *
 * @param chanceOfShort above 0 and below 0.5
 */
export function spareFor(spread: CordSpread, chanceOfShort: number): Spare {
  const extraFor = ({ ratio, degrees }: PredictionError): number =>
    ratio * spareFactor.compute(chanceOfShort, Math.min(degrees, manyDegrees));
  const found = { ratio: Math.hypot(spread.spreadRatio, spread.fitErrorRatio), degrees: spread.degrees };
  const tape = { ratio: spread.readingErrorRatio, degrees: Number.POSITIVE_INFINITY };
  const error = extraFor(found) >= extraFor(tape) ? found : tape;
  if (error.ratio === 0) return { error, extraRatio: 0, expectedOffcutRatio: 0, expectedLossRatio: 0 };
  const extraRatio = extraFor(error);
  return {
    error,
    extraRatio,
    expectedOffcutRatio: error.ratio * spareLeft.compute(extraRatio / error.ratio),
    // A piece that ran short is as good as lost, and its successor may run short as well.
    expectedLossRatio: (chanceOfShort / (1 - chanceOfShort)) * (1 + extraRatio),
  };
}
