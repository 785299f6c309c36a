import { convertLength } from '../book/measures/measure.ts';
import type { Place } from '../book/problems/problem.ts';
import { asFunctionOf } from '../calc/compiled/calculate.ts';
import { isFailure, type Values } from '../calc/values.ts';
import type { Plan } from '../sheets/plan.ts';

/** A weave as the sheet Weaves holds it. */
export interface SampledWeave {
  readonly weave: string;
  readonly family: string;
  /** The figure without which its family's geometry cannot be worked out. */
  readonly needs: 'pitch' | 'angle' | 'measured take-up' | 'nothing';
  /** What the book uses now; null where a cell is blank. */
  readonly pitchRatio: number | null;
  readonly layeredPitchRatio: number | null;
  readonly angleDegrees: number | null;
  readonly measuredTakeUp: number | null;
  readonly coreTakeUp: number;
}

/** A measured test piece, as the sheet Samples has worked it out. */
export interface Sample {
  readonly sample: string;
  readonly weave: SampledWeave;
  readonly layers: number;
  readonly coreStrands: number;
  readonly diameterMm: number | null;
  readonly wovenMm: number;
  /** Cord that all its working cords took together. */
  readonly usedMm: number;
  readonly workingCords: number;
  /** Cord that one working cord took, per length woven. */
  readonly takeUp: number;
  /** What its family's geometry would have it take at another pitch, or angle in degrees. */
  readonly takeUpByPitch: (pitchRatio: number) => number;
  readonly takeUpByAngle: (angleDegrees: number) => number;
  readonly halfKnots: number | null;
  readonly countedPitch: number | null;
  readonly coreTakeUp: number | null;
  readonly remark: string;
  /** A check of the sheet says "look": its figures cannot be right. */
  readonly faulty: boolean;
  readonly where: Place;
}

type Geometry = (row: number, figure: number) => number;

/** Checks without which a sample cannot be fitted; a count that cannot be used is merely not used. */
const needed = ['used_check', 'core_used_check', 'layer_check', 'core_check'];

/** Reads the test pieces out of a calculated plan; lengths become millimetres. */
export function samplesOf(plan: Plan, values: Values): Sample[] {
  const sheetOf = (id: string) => plan.sheets.find((each) => each.id === id);
  const text = (sheet: string, column: string, row: number): string => {
    const value = values.get(sheet, column, row);
    return value === null || isFailure(value) ? '' : String(value);
  };
  const orNull = (sheet: string, column: string, row: number): number | null => {
    const value = values.get(sheet, column, row);
    return typeof value === 'number' ? value : null;
  };
  const weaves = new Map<string, SampledWeave>();
  for (let row = 0; row < (sheetOf('weaves')?.rowCount ?? 0); row += 1) {
    const weave = text('weaves', 'weave', row);
    weaves.set(weave.toLowerCase(), {
      weave,
      family: text('weaves', 'family', row),
      needs: text('weaves', 'needs', row) as SampledWeave['needs'],
      pitchRatio: orNull('weaves', 'pitch_ratio', row),
      layeredPitchRatio: orNull('weaves', 'layered_pitch_ratio', row),
      angleDegrees: orNull('weaves', 'angle', row),
      measuredTakeUp: orNull('weaves', 'measured_take_up', row),
      coreTakeUp: values.number('weaves', 'core_take_up', row),
    });
  }
  const mm = (column: string, row: number): number =>
    convertLength(values.number('samples', column, row), plan.settings.lengthUnit, 'mm');
  const sheet = sheetOf('samples');
  if (sheet === undefined || sheet.rowCount === 0) return [];
  const [byPitch, byAngle] = ['pitch_ratio', 'angle'].map((figure) => {
    const taken = asFunctionOf(plan, values, 'samples', 'take_up_formula', figure);
    return (row: number, value: number): number => {
      const result = taken(row, value);
      // Outside its domain the formula has no answer, and the sheet shows 0.
      return typeof result === 'number' && result > 0 ? result : Number.NaN;
    };
  }) as [Geometry, Geometry];
  const samples: Sample[] = [];
  for (let row = 0; row < sheet.rowCount; row += 1) {
    const weave = weaves.get(text('samples', 'weave', row).toLowerCase());
    // An unknown weave has been reported as an error before anything was calculated.
    if (weave === undefined) continue;
    samples.push({
      sample: text('samples', 'sample', row),
      weave,
      layers: values.number('samples', 'layers', row),
      coreStrands: values.number('samples', 'core', row),
      diameterMm: orNull('samples', 'diameter', row),
      wovenMm: mm('woven_length', row),
      usedMm: mm('cord_in', row) - mm('cord_left', row),
      workingCords: values.number('samples', 'cords', row),
      takeUp: values.number('samples', 'take_up', row),
      takeUpByPitch: (pitch) => byPitch(row, pitch),
      takeUpByAngle: (angle) => byAngle(row, angle),
      halfKnots: orNull('samples', 'half_knots', row),
      countedPitch: orNull('samples', 'pitch_counted', row),
      coreTakeUp: orNull('samples', 'core_take_up', row),
      remark: text('samples', 'remark', row),
      faulty: needed.some((check) => values.get('samples', check, row) === 'look'),
      where: sheet.places[row] ?? { file: 'samples.csv' },
    });
  }
  return samples;
}
