import type { Settings } from '../settings.ts';
import { type DecimalMark, longestFigure, parseNumber } from './numberText.ts';

/** Units of a breaking strength. */
export type ForceUnit = 'N' | 'kN' | 'lbf' | 'kgf';

/**
 * Exact newtons in a unit. Source: NIST SP 811 (2008), App. B.8; the kilogram-force by the standard
 * acceleration of free fall, 9.80665 m/s2 (3rd General Conference on Weights and Measures, 1901).
 */
export const newtonPerUnit: Readonly<Record<ForceUnit, number>> = Object.freeze({
  N: 1,
  kN: 1000,
  lbf: 4.4482216152605,
  kgf: 9.80665,
});

/** Suppliers state strengths in pounds and kilograms and mean the forces. */
const unitWords: Readonly<Record<string, ForceUnit>> = Object.freeze({
  n: 'N',
  newton: 'N',
  newtons: 'N',
  kn: 'kN',
  lbf: 'lbf',
  lb: 'lbf',
  lbs: 'lbf',
  pound: 'lbf',
  pounds: 'lbf',
  kgf: 'kgf',
  kp: 'kgf',
  kg: 'kgf',
});

/** The unit that a word stands for, or undefined. */
export function forceUnit(word: string): ForceUnit | undefined {
  const known = word.trim().toLowerCase().replace(/\.$/, '');
  return Object.hasOwn(unitWords, known) ? unitWords[known] : undefined;
}

/** The unit in which a book shows breaking strengths: pounds-force beside inches, newtons otherwise. */
export function forceUnitOf(settings: Pick<Settings, 'lengthUnit'>): 'lbf' | 'N' {
  return settings.lengthUnit === 'in' ? 'lbf' : 'N';
}

/** Converts a force between units; exact where the units are the same. */
export function convertForce(value: number, from: ForceUnit, to: ForceUnit): number {
  return from === to ? value : (value * newtonPerUnit[from]) / newtonPerUnit[to];
}

/**
 * Reads a breaking strength: `550 lbf`, `550 lb`, `2.4 kN`, `250 kg`, or a bare number.
 *
 * @returns the number and its unit where one was given; undefined where the text is not a force
 */
export function parseForce(text: string, mark: DecimalMark): { value: number; unit?: ForceUnit } | undefined {
  if (text.length > longestFigure) return undefined;
  const bare = parseNumber(text, mark);
  if (bare !== undefined) return { value: bare };
  const split = /^(.*?\d)\s*([a-z]+\.?)$/i.exec(text.trim());
  const value = parseNumber(split?.[1] ?? '', mark);
  const unit = forceUnit(split?.[2] ?? '');
  return value === undefined || unit === undefined ? undefined : { value, unit };
}
