import { findRoot } from '../chance/findRoot.ts';
import { type Model, sensitivity } from './model.ts';
import type { Sample } from './sample.ts';

/** What one test piece says of the figure that is fitted. Errors are standard deviations. */
export interface Piece {
  readonly sample: Sample;
  /** From the cord alone. */
  readonly byCord: number;
  /** From the counted half knots alone; null where they were not counted or do not bear on the figure. */
  readonly byCount: number | null;
  /** Both together, weighted by how well each was read. */
  readonly value: number;
  /** How much of `value` comes from the count, 0 to 1. */
  readonly countWeight: number;
  /** Error of `value` from reading the tape and counting, this piece's own. */
  readonly readingError: number;
  /** Error of `value` from the cord's diameter, which is the same in every piece of that cord. */
  readonly diameterError: number;
  /** Error of reading the measured take-up, as a share of it. */
  readonly takeUpErrorRatio: number;
  /** How far count and cord are apart, in standard deviations of that difference; 0 where not counted. */
  readonly disagreement: number;
}

/** A count ends somewhere within a half knot: an even spread of one has this standard deviation. */
const countError = 1 / Math.sqrt(12);

/** Strands that are laid side by side to find a cord's diameter (docs/cord.md). */
const strandsMeasured = 10;

/**
 * Turns a test piece into what it says of the figure: the measured take-up through the geometry turned
 * round, and the counted pitch beside it.
 *
 * Both lean on the same woven length, so their errors go together; the weights allow for that (generalised
 * least squares of two readings). All errors are taken as small shares, to first order.
 *
 * @returns undefined where no value of the figure gives the measured take-up
 */
export function pieceOf(sample: Sample, model: Model, readingErrorMm: number): Piece | undefined {
  const byCord = findRoot((value) => model.takeUp(sample, value) - sample.takeUp, model.low, model.high);
  if (byCord === undefined || byCord <= 0) return undefined;
  const slope = sensitivity(model, sample, byCord);
  // Cord in and cord left are two readings; the woven length is a third.
  const used = (readingErrorMm * Math.SQRT2) / sample.usedMm;
  const woven = readingErrorMm / sample.wovenMm;
  const takeUpErrorRatio = Math.hypot(used, woven);
  const cordVariance = (takeUpErrorRatio / slope) ** 2;

  const counts = model.parameter === 'pitch_ratio' || model.parameter === 'layered_pitch_ratio';
  const { halfKnots, countedPitch, diameterMm } = sample;
  if (!counts || halfKnots === null || countedPitch === null || diameterMm === null) {
    return {
      sample,
      byCord,
      byCount: null,
      value: byCord,
      countWeight: 0,
      readingError: byCord * Math.sqrt(cordVariance),
      diameterError: 0,
      takeUpErrorRatio,
      disagreement: 0,
    };
  }
  const diameter = readingErrorMm / (strandsMeasured * diameterMm);
  const ownVariance = woven ** 2 + (countError / halfKnots) ** 2;
  // A longer reading of the piece raises the counted pitch and lowers the take-up, which reads as more pitch too.
  const shared = -(woven ** 2) / slope;
  const bottom = cordVariance + ownVariance + diameter ** 2 - 2 * shared;
  const weight = bottom > 0 ? Math.min(1, Math.max(0, (cordVariance - shared) / bottom)) : 0;
  const value = (1 - weight) * byCord + weight * countedPitch;
  const variance =
    (1 - weight) ** 2 * cordVariance + weight ** 2 * ownVariance + 2 * weight * (1 - weight) * shared;
  return {
    sample,
    byCord,
    byCount: countedPitch,
    value,
    countWeight: weight,
    readingError: value * Math.sqrt(Math.max(0, variance)),
    diameterError: value * weight * diameter,
    takeUpErrorRatio,
    disagreement: bottom > 0 ? Math.log(countedPitch / byCord) / Math.sqrt(bottom) : 0,
  };
}
