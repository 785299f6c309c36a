import { convertLength } from '../../book/measures/measure.ts';
import type { Problem } from '../../book/problems/problem.ts';
import { asFunctionOf } from '../../calc/compiled/calculate.ts';
import { isFailure, type Values } from '../../calc/values.ts';
import type { FitChoice, SampleFit } from '../../samples/fitFigure.ts';
import type { CoreFit, WeaveFit } from '../../samples/fitSamples.ts';
import type { WrittenCell } from '../../samples/writeBack.ts';
import type { Plan } from '../../sheets/plan.ts';

/** A test piece beside the fit. Lengths in millimetres; take-ups are cord per length. */
export interface ReportedSample {
  readonly sample: string;
  readonly wovenMm: number;
  readonly usedPerCordMm: number;
  readonly takeUp: number;
  readonly fittedTakeUp: number;
  /** Cord taken beyond the fitted amount, as a share of it. */
  readonly residualRatio: number;
  /** The figure by this piece's cord alone, and by its counted half knots alone. */
  readonly valueByCord: number;
  readonly valueByCount: number | null;
  readonly deletedResidual: number | null;
  readonly outlier: boolean;
}

/** What the extra cord means for a product of the weave, by the cord that the book counts now. */
export interface ReportedProduct {
  readonly product: string;
  readonly wovenLengthMm: number;
  /** For each of its working cords, the one that needs most. */
  readonly extraPerCordMm: number;
  /** Of all its working cords together, on the average. */
  readonly expectedOffcutMm: number;
  readonly expectedOffcutCost: number;
}

export interface ReportedFit {
  readonly weave: string;
  readonly family: string;
  /** Column of weaves.csv. */
  readonly parameter: string;
  readonly unit: 'cord diameters' | 'degrees' | 'cord per length';
  readonly value: number;
  readonly standardError: number;
  readonly low95: number;
  readonly high95: number;
  /** What the book uses now; null where it has none. */
  readonly bookValue: number | null;
  readonly spreadFrom: 'samples' | 'assumed';
  /** How far pieces differ in cord (standard deviation), as a share. */
  readonly spreadRatio: number;
  readonly fitErrorRatio: number;
  readonly degreesOfFreedom: number | null;
  /** How far one new piece is off in all, as it goes into weaves.csv, and its own degrees of freedom. */
  readonly predictionErrorRatio: number;
  readonly predictionDegrees: number | null;
  readonly extraRatio: number;
  readonly expectedOffcutRatio: number;
  readonly expectedLossRatio: number;
  readonly samples: readonly ReportedSample[];
  readonly products: readonly ReportedProduct[];
}

/** What `fit --json` prints. */
export interface FitReport {
  readonly readingErrorMm: number;
  readonly chanceOfShort: number;
  readonly assumedSpreadRatio: number;
  readonly currency: string;
  readonly fits: readonly ReportedFit[];
  readonly coreTakeUps: readonly ({ readonly weave: string } & CoreFit)[];
  readonly leftOut: readonly string[];
  readonly problems: readonly Problem[];
  /** Cells of weaves.csv that were changed; empty where nothing was to be written. */
  readonly written: readonly WrittenCell[];
}

const units = {
  pitch_ratio: 'cord diameters',
  layered_pitch_ratio: 'cord diameters',
  angle: 'degrees',
  measured_take_up: 'cord per length',
} as const;

/** The fits of a book with what they mean for its products; lengths become millimetres. */
export function fitReport(
  plan: Plan,
  values: Values,
  weaves: readonly WeaveFit[],
  choice: FitChoice,
  more: Pick<FitReport, 'leftOut' | 'problems' | 'written'>,
): FitReport {
  return {
    ...choice,
    currency: plan.settings.currency,
    fits: weaves.flatMap((each) => each.fits.map((fit) => reported(plan, values, each, fit))),
    coreTakeUps: weaves.flatMap(({ weave, core }) =>
      core === undefined ? [] : [{ weave: weave.weave, ...core }],
    ),
    ...more,
  };
}

function reported(plan: Plan, values: Values, { weave }: WeaveFit, fit: SampleFit): ReportedFit {
  const { parameter, cord, spare } = fit;
  const inBook = {
    pitch_ratio: weave.pitchRatio,
    layered_pitch_ratio: weave.layeredPitchRatio,
    angle: weave.angleDegrees,
    measured_take_up: weave.measuredTakeUp,
  };
  return {
    weave: fit.weave,
    family: weave.family,
    parameter,
    unit: units[parameter],
    value: fit.value,
    standardError: fit.standardError,
    low95: fit.low,
    high95: fit.high,
    bookValue: inBook[parameter],
    spreadFrom: fit.spreadFrom,
    spreadRatio: cord.spreadRatio,
    fitErrorRatio: cord.fitErrorRatio,
    degreesOfFreedom: Number.isFinite(cord.degrees) ? cord.degrees : null,
    predictionErrorRatio: spare.error.ratio,
    predictionDegrees: Number.isFinite(spare.error.degrees) ? spare.error.degrees : null,
    extraRatio: spare.extraRatio,
    expectedOffcutRatio: spare.expectedOffcutRatio,
    expectedLossRatio: spare.expectedLossRatio,
    samples: fit.pieces.map(({ piece, fittedTakeUp, residualRatio, deletedResidual, outlier }) => ({
      sample: piece.sample.sample,
      wovenMm: piece.sample.wovenMm,
      usedPerCordMm: piece.sample.usedMm / piece.sample.workingCords,
      takeUp: piece.sample.takeUp,
      fittedTakeUp,
      residualRatio,
      valueByCord: piece.byCord,
      valueByCount: piece.byCount,
      deletedResidual,
      outlier,
    })),
    products: productsOf(plan, values, fit),
  };
}

/** The products that go by the fitted figure. */
function productsOf(plan: Plan, values: Values, fit: SampleFit): ReportedProduct[] {
  const rowsOf = (sheet: string): number => plan.sheets.find((each) => each.id === sheet)?.rowCount ?? 0;
  const text = (sheet: string, column: string, row: number): string => {
    const value = values.get(sheet, column, row);
    return value === null || isFailure(value) ? '' : String(value).toLowerCase();
  };
  const { lengthUnit } = plan.settings;
  const perCord = values.number('rates', 'length_per_cord', 0);
  const cutRows = new Map<string, number[]>();
  for (let row = 0; row < rowsOf('cuts'); row += 1) {
    if (text('cuts', 'role', row) === 'core') continue;
    const product = text('cuts', 'product', row);
    cutRows.set(product, [...(cutRows.get(product) ?? []), row]);
  }
  const takeUpOf = fittedTakeUp(plan, values, fit);
  const found: ReportedProduct[] = [];
  for (let row = 0; row < rowsOf('products'); row += 1) {
    const layered = values.number('products', 'layers', row) > 1;
    const ours =
      text('products', 'weave', row) === fit.weave.toLowerCase() &&
      // A take-up that was measured on the product itself goes before the weave's.
      typeof values.get('products', 'take_up_set', row) !== 'number' &&
      (fit.parameter === 'pitch_ratio' ? !layered : fit.parameter === 'layered_pitch_ratio' ? layered : true);
    if (!ours) continue;
    let extra = 0;
    let offcut = 0;
    let cost = 0;
    for (const cut of cutRows.get(text('products', 'product', row)) ?? []) {
      // Stripes and bands go their own way over the face.
      if (['stripe', 'band'].includes(text('cuts', 'role', cut))) continue;
      // By the fitted figure, not by the one in the book: it may have none yet.
      const woven =
        values.number('cuts', 'strands', cut) *
        values.number('cuts', 'share', cut) *
        takeUpOf(row) *
        values.number('products', 'woven_length', row);
      const left = values.number('cuts', 'pieces', cut) * woven * fit.spare.expectedOffcutRatio;
      extra = Math.max(extra, woven * fit.spare.extraRatio);
      offcut += left;
      cost += perCord > 0 ? (left / perCord) * values.number('cuts', 'unit_cost', cut) : 0;
    }
    found.push({
      product: String(values.get('products', 'product', row)),
      wovenLengthMm: convertLength(values.number('products', 'woven_length', row), lengthUnit, 'mm'),
      extraPerCordMm: convertLength(extra, lengthUnit, 'mm'),
      expectedOffcutMm: convertLength(offcut, lengthUnit, 'mm'),
      expectedOffcutCost: cost,
    });
  }
  return found;
}

/** What one working cord of a product takes by the fitted figure, through the formula of its family. */
function fittedTakeUp(plan: Plan, values: Values, { parameter, value }: SampleFit): (row: number) => number {
  if (parameter === 'measured_take_up') return () => value;
  const figure = parameter === 'angle' ? 'angle' : 'pitch_ratio';
  const takeUp = asFunctionOf(plan, values, 'geometry', 'take_up', figure);
  return (row) => {
    const taken = takeUp(row, value);
    return typeof taken === 'number' ? taken : 0;
  };
}
