import { type Problem, problem } from '../book/problems/problem.ts';
import { studentQuantile } from '../chance/student.ts';
import { type Model, type Parameter, sensitivity } from './model.ts';
import { deletedResiduals, outlierLimit } from './outliers.ts';
import { type Piece, pieceOf } from './piece.ts';
import type { Sample } from './sample.ts';
import { type CordSpread, type Spare, spareFor } from './spare.ts';
import { type WeightedMean, weightedMean } from './weightedMean.ts';

/** What the maker chooses; both stand on the sheet Rates. */
export interface FitChoice {
  /** Standard deviation of one reading of the tape. */
  readonly readingErrorMm: number;
  /** Share of pieces that may run short: 0.02 is one in fifty. */
  readonly chanceOfShort: number;
  /** Spread of pieces of one weave that is taken where a single sample cannot show it. */
  readonly assumedSpreadRatio: number;
}

export interface FittedPiece {
  readonly piece: Piece;
  readonly fittedTakeUp: number;
  /** Cord taken beyond the fitted amount, as a share of it. */
  readonly residualRatio: number;
  /** Deleted residual in standard deviations; null with fewer than three samples. */
  readonly deletedResidual: number | null;
  readonly outlier: boolean;
}

/** One figure of one weave, fitted to the samples that bear on it. */
export interface SampleFit {
  readonly weave: string;
  readonly parameter: Parameter;
  readonly pieces: readonly FittedPiece[];
  readonly value: number;
  readonly standardError: number;
  /** From `low` to `high` with a chance of 95 %. */
  readonly low: number;
  readonly high: number;
  readonly cord: CordSpread;
  readonly spreadFrom: 'samples' | 'assumed';
  readonly spare: Spare;
}

/**
 * Fits one figure to samples of one weave. Each sample is turned into the value of the figure that it would
 * need by itself (`pieceOf`), and these are averaged by least squares with an unknown spread between pieces
 * (`weightedMean`). The error of the cord's diameter is one for all pieces and is added at the end.
 *
 * @param samples one or more of one weave, all of which the model covers
 * @returns the fit, where every sample has a value; and a problem for each that has none, for outliers, and
 * where counts and cord disagree
 */
export function fitFigure(
  samples: readonly Sample[],
  model: Model,
  choice: FitChoice,
): { fit?: SampleFit; problems: Problem[] } {
  const problems: Problem[] = [];
  const pieces: Piece[] = [];
  for (const sample of samples) {
    const piece = pieceOf(sample, model, choice.readingErrorMm);
    if (piece === undefined) problems.push(unfitted(sample));
    else pieces.push(piece);
  }
  if (problems.length > 0 || pieces.length === 0) return { problems };

  const readings = pieces.map(({ value, readingError }) => ({ value, error: readingError }));
  const rough = readings.reduce((sum, each) => sum + each.value, 0) / readings.length;
  const slopeAt = (value: number): number =>
    Math.abs(pieces.reduce((sum, { sample }) => sum + sensitivity(model, sample, value), 0) / pieces.length);
  const single = pieces.length === 1;
  const { assumedSpreadRatio } = choice;
  const mean = weightedMean(readings, single ? (assumedSpreadRatio * rough) / slopeAt(rough) : undefined);
  const shared = sharedError(pieces, mean);
  const standardError = Math.hypot(mean.standardError, shared);
  const degrees = single ? Number.POSITIVE_INFINITY : pieces.length - 1;
  // Residuals of few samples go by Student's t; reading errors are known and go by the normal distribution.
  const normal = studentQuantile(0.975, Number.POSITIVE_INFINITY);
  const half = Math.hypot(
    Math.max(studentQuantile(0.975, degrees) * mean.residualError, normal * mean.standardError),
    normal * shared,
  );

  const deleted = deletedResiduals(readings);
  const limit = outlierLimit(readings.length);
  const fitted = pieces.map((piece, at): FittedPiece => {
    const fittedTakeUp = model.takeUp(piece.sample, mean.value);
    const deletedResidual = deleted[at] ?? null;
    return {
      piece,
      fittedTakeUp,
      residualRatio: piece.sample.takeUp / fittedTakeUp - 1,
      deletedResidual,
      outlier: Math.abs(deletedResidual ?? 0) > limit,
    };
  });
  problems.push(...fitted.filter((each) => each.outlier).map(outlierProblem), ...disagreement(pieces));
  const cord: CordSpread = {
    spreadRatio: single ? assumedSpreadRatio : cordSpread(fitted),
    // With a single sample the assumed spread counts twice: once for its own luck, once for the next piece's.
    fitErrorRatio: (Math.hypot(mean.residualError, shared) / mean.value) * slopeAt(mean.value),
    readingErrorRatio: readingSpread(pieces) * Math.sqrt(1 + 1 / pieces.length),
    degrees,
  };
  return {
    fit: {
      weave: samples[0]?.weave.weave ?? '',
      parameter: model.parameter,
      pieces: fitted,
      value: mean.value,
      standardError,
      // A wide interval ends where the geometry does.
      low: Math.max(model.low, mean.value - half),
      high: Math.min(model.high, mean.value + half),
      cord,
      spreadFrom: single ? 'assumed' : 'samples',
      spare: spareFor(cord, choice.chanceOfShort),
    },
    problems,
  };
}

/** What an error of the diameter, alike in all pieces, does to the mean. */
function sharedError(pieces: readonly Piece[], mean: WeightedMean): number {
  const weights = pieces.map(({ readingError }) => 1 / Math.max(mean.spread ** 2 + readingError ** 2, 1e-18));
  const sum = weights.reduce((total, each) => total + each, 0);
  return pieces.reduce((total, each, at) => total + (each.diameterError * (weights[at] ?? 0)) / sum, 0);
}

/** How far pieces differ in the cord that they take, by the residuals. */
function cordSpread(fitted: readonly FittedPiece[]): number {
  const squares = fitted.reduce((sum, each) => sum + each.residualRatio ** 2, 0);
  return Math.sqrt(squares / (fitted.length - 1));
}

/** What reading the tape adds to that by itself. */
function readingSpread(pieces: readonly Piece[]): number {
  return Math.sqrt(pieces.reduce((sum, each) => sum + each.takeUpErrorRatio ** 2, 0) / pieces.length);
}

function unfitted({ sample, weave, where, takeUp }: Sample): Problem {
  return problem(
    'calculation-failed',
    where,
    `Sample ${sample}: no ${weave.family} takes ${takeUp.toFixed(3)} of cord per length, whatever its pitch or angle.`,
    {
      found: takeUp.toFixed(3),
      mend: 'Check its lengths, layers and core strands; or fit the take-up itself with --take-up.',
    },
  );
}

function outlierProblem({ piece, deletedResidual, residualRatio }: FittedPiece): Problem {
  const { sample, where } = piece.sample;
  const way = residualRatio > 0 ? 'more' : 'less';
  return problem(
    'check-failed',
    where,
    `Sample ${sample} took ${way} cord than the others let expect: ${Math.abs(deletedResidual ?? 0).toFixed(1)} standard deviations from what they say.`,
    {
      severity: 'watch',
      mend: `It is counted in. Check its figures, or leave it out with --without "${sample}".`,
    },
  );
}

/** Counts and cord may differ by their errors; far more than that is a wrong diameter or another weave. */
function disagreement(pieces: readonly Piece[]): Problem[] {
  const counted = pieces.filter((each) => each.byCount !== null);
  const [first] = counted;
  if (first === undefined) return [];
  const mean = counted.reduce((sum, each) => sum + each.disagreement, 0) / counted.length;
  if (Math.abs(mean) < 3) return [];
  const average = (of: (piece: Piece) => number): string =>
    (counted.reduce((sum, each) => sum + of(each), 0) / counted.length).toFixed(2);
  return [
    problem(
      'check-failed',
      { file: first.sample.where.file, column: 'half_knots' },
      `Weave ${first.sample.weave.weave}: the half knots that were counted say a pitch of ${average((each) => each.byCount ?? 0)}, the cord that was used ${average((each) => each.byCord)}.`,
      {
        severity: 'watch',
        mend: 'Check the diameter of the cord, the counts, and that cord_in and cord_left are of all working cords.',
      },
    ),
  ];
}
