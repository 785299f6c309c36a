import { convertLength, type LengthUnit, parseMeasure } from './measure.ts';
import { type DecimalMark, longestFigure, parseNumber } from './numberText.ts';

export type WeightUnit = 'g' | 'kg' | 'oz' | 'lb';

/**
 * Exact grams in a unit (the ounce and pound are avoirdupois). Source: NIST SP 811 (2008), App. B.8; NIST
 * Handbook 44, App. C.
 */
export const gPerUnit: Readonly<Record<WeightUnit, number>> = Object.freeze({
  g: 1,
  kg: 1000,
  oz: 28.349523125,
  lb: 453.59237,
});

const unitWords: Readonly<Record<string, WeightUnit>> = Object.freeze({
  g: 'g',
  gram: 'g',
  grams: 'g',
  gramme: 'g',
  grammes: 'g',
  kg: 'kg',
  kilo: 'kg',
  kilos: 'kg',
  kilogram: 'kg',
  kilograms: 'kg',
  oz: 'oz',
  ounce: 'oz',
  ounces: 'oz',
  lb: 'lb',
  lbs: 'lb',
  pound: 'lb',
  pounds: 'lb',
});

/** The unit that a word stands for, or undefined. */
export function weightUnit(word: string): WeightUnit | undefined {
  const known = word.trim().toLowerCase().replace(/\.$/, '');
  return Object.hasOwn(unitWords, known) ? unitWords[known] : undefined;
}

/** Converts a weight between units; exact where the units are the same. */
export function convertWeight(value: number, from: WeightUnit, to: WeightUnit): number {
  if (from === to) return value;
  // All units are whole nanograms; reckoned in those, 1 lb is 16 oz and not 16.000000000000004.
  return (value * Math.round(gPerUnit[from] * 1e9)) / Math.round(gPerUnit[to] * 1e9);
}

/** A weight as written: the number, and its unit where one was given. */
export interface Weight {
  readonly value: number;
  readonly unit?: WeightUnit;
}

/**
 * Reads a weight as people write it: `12 g`, `1/2 oz`, `1 lb 4 oz`, or a bare number, whose unit the caller
 * supplies.
 *
 * @returns the weight, or undefined where the text is not one (or its unit is unknown).
 */
export function parseWeight(text: string, mark: DecimalMark): Weight | undefined {
  if (text.length > longestFigure) return undefined;
  const trimmed = text.trim();
  const bare = parseNumber(trimmed, mark);
  if (bare !== undefined) return { value: bare };
  const both = /^(.*?(?:lbs?\.?|pounds?))\s*(.*(?:oz\.?|ounces?))$/i.exec(trimmed);
  if (both) {
    const pounds = parseOneUnit(both[1]!, mark);
    const ounces = parseOneUnit(both[2]!, mark);
    if (pounds?.unit === 'lb' && ounces?.unit === 'oz' && pounds.value >= 0 && ounces.value >= 0) {
      return { value: convertWeight(pounds.value, 'lb', 'oz') + ounces.value, unit: 'oz' };
    }
  }
  return parseOneUnit(trimmed, mark);
}

function parseOneUnit(text: string, mark: DecimalMark): Weight | undefined {
  const split = /^(.*?\d)\s*([a-z]+\.?)$/i.exec(text.trim());
  if (!split) return undefined;
  const value = parseNumber(split[1]!, mark);
  const unit = weightUnit(split[2]!);
  return value === undefined || unit === undefined ? undefined : { value, unit };
}

/** So much weight in so much length: 6.6 g in 1 m, or 1 lb in 225 ft. */
export interface WeightOfLength {
  readonly weight: Required<Weight>;
  readonly length: { readonly value: number; readonly unit: LengthUnit };
}

/**
 * Reads the weight of a cord either way it is stated: `6.6 g/m` and `1 lb per 225 ft` as weight for a length,
 * `225 ft/lb` as length for a weight.
 *
 * @returns the two, both above zero where it is a length for a weight; undefined where the text is neither
 */
export function parseWeightOfLength(text: string, mark: DecimalMark): WeightOfLength | undefined {
  if (text.length > longestFigure) return undefined;
  for (const { index, 0: sign } of text.matchAll(/\/|\s+per\s+/gi)) {
    const before = text.slice(0, index).trim();
    // A bare unit after the stroke is one of it.
    const after = text.slice(index + sign.length).trim();
    const each = /^\d/.test(after) ? after : `1 ${after}`;
    const found = pairOf(before, each, mark) ?? pairOf(each, before, mark);
    if (found !== undefined) return found;
  }
  return undefined;
}

function pairOf(weightText: string, lengthText: string, mark: DecimalMark): WeightOfLength | undefined {
  const weight = parseWeight(weightText, mark);
  const length = parseMeasure(lengthText, mark);
  if (weight?.unit === undefined || length?.unit === undefined || length.value <= 0) return undefined;
  return {
    weight: { value: weight.value, unit: weight.unit },
    length: { value: length.value, unit: length.unit },
  };
}

/** Weight, in `weight`, of one `length` of a cord. */
export function weightOfOne(given: WeightOfLength, weight: WeightUnit, length: LengthUnit): number {
  return (
    convertWeight(given.weight.value, given.weight.unit, weight) /
    convertLength(given.length.value, given.length.unit, length)
  );
}

/** Whether a word names a weight, or a weight for a length or the other way about: `g`, `g/m`, `ft/lb`. */
export function isWeightWord(word: string): boolean {
  return weightUnit(word) !== undefined || parseWeightOfLength(`1 ${word.trim()}`, 'point') !== undefined;
}
