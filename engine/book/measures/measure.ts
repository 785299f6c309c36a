import { type DecimalMark, longestFigure, parseNumber } from './numberText.ts';

/**
 * Exact millimetres in a unit. Source: International Yard and Pound Agreement 1959; NIST SP 811 (2008),
 * App. B.8 (the international foot, not the survey foot).
 */
export const mmPerUnit: Readonly<Record<LengthUnit, number>> = Object.freeze({
  mm: 1,
  cm: 10,
  m: 1000,
  in: 25.4,
  ft: 304.8,
  yd: 914.4,
});

export type LengthUnit = 'mm' | 'cm' | 'm' | 'in' | 'ft' | 'yd';

const unitWords: Readonly<Record<string, LengthUnit>> = Object.freeze({
  mm: 'mm',
  millimetre: 'mm',
  millimetres: 'mm',
  millimeter: 'mm',
  millimeters: 'mm',
  cm: 'cm',
  centimetre: 'cm',
  centimetres: 'cm',
  centimeter: 'cm',
  centimeters: 'cm',
  m: 'm',
  metre: 'm',
  metres: 'm',
  meter: 'm',
  meters: 'm',
  in: 'in',
  inch: 'in',
  inches: 'in',
  '"': 'in',
  '″': 'in',
  '”': 'in',
  "''": 'in',
  ft: 'ft',
  foot: 'ft',
  feet: 'ft',
  "'": 'ft',
  '′': 'ft',
  '’': 'ft',
  yd: 'yd',
  yds: 'yd',
  yard: 'yd',
  yards: 'yd',
});

/** The unit that a word or sign stands for, or undefined. */
export function lengthUnit(word: string): LengthUnit | undefined {
  const known = word.trim().toLowerCase().replace(/\.$/, '');
  return Object.hasOwn(unitWords, known) ? unitWords[known] : undefined;
}

/** Converts a length between units; exact where the units are the same. */
export function convertLength(value: number, from: LengthUnit, to: LengthUnit): number {
  if (from === to) return value;
  // All units are whole tenths of a millimetre; reckoned in those, 4 ft is 48 in and not 48.00000000000001.
  return (value * Math.round(mmPerUnit[from] * 10)) / Math.round(mmPerUnit[to] * 10);
}

/** A measure as written: the number, and its unit where one was given. */
export interface Measure {
  readonly value: number;
  readonly unit?: LengthUnit;
}

/**
 * Reads a length as people write it: `8 in`, `7 1/2"`, `5/32"`, `20 cm`, `1,000 ft`, `5 ft 6 in`, or a
 * bare number, whose unit the caller supplies.
 *
 * @returns the measure, or undefined where the text is not one (or its unit is unknown).
 */
export function parseMeasure(text: string, mark: DecimalMark): Measure | undefined {
  if (text.length > longestFigure) return undefined;
  const trimmed = text.trim();
  const bare = parseNumber(trimmed, mark);
  if (bare !== undefined) return { value: bare };
  const feetAndInches = /^(.*?(?:ft\.?|feet|foot|'|′|’))\s*(.*(?:in\.?|inch|inches|"|″|”))$/i.exec(trimmed);
  if (feetAndInches) {
    const feet = parseMeasureOfOneUnit(feetAndInches[1]!, mark);
    const inches = parseMeasureOfOneUnit(feetAndInches[2]!, mark);
    if (feet?.unit === 'ft' && inches?.unit === 'in' && feet.value >= 0 && inches.value >= 0) {
      return { value: feet.value * 12 + inches.value, unit: 'in' };
    }
  }
  return parseMeasureOfOneUnit(trimmed, mark);
}

function parseMeasureOfOneUnit(text: string, mark: DecimalMark): Measure | undefined {
  const split = /^(.*?\d)\s*([a-z]+\.?|["″”'′’]|'')$/i.exec(text.trim());
  if (!split) return undefined;
  const value = parseNumber(split[1]!, mark);
  const unit = lengthUnit(split[2]!);
  return value === undefined || unit === undefined ? undefined : { value, unit };
}

/** A length as a tape measure reads it: whole feet and the inches beyond. Dust just below a foot counts as the foot. */
export function feetAndInches(lengthMm: number): { feet: number; inches: number } {
  const inches = convertLength(lengthMm, 'mm', 'in');
  const inchesPerFoot = convertLength(1, 'ft', 'in');
  const feet = Math.floor(inches / inchesPerFoot + 1e-9);
  return { feet, inches: Math.max(0, inches - feet * inchesPerFoot) };
}
