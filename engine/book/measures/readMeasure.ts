import { type CellReading, fault } from '../cellReading.ts';
import type { Settings } from '../settings.ts';
import { convertForce, type ForceUnit, forceUnit, forceUnitOf, parseForce } from './force.ts';
import { convertLength, type LengthUnit, lengthUnit, parseMeasure } from './measure.ts';
import { type DecimalMark, numberText, parseNumber } from './numberText.ts';
import { convertWeight, parseWeight, parseWeightOfLength, type Weight, weightOfOne } from './weight.ts';

/** A length in its own unit, else that of the heading, else the one that it is turned into. */
export function readLength(
  text: string,
  settings: Settings,
  into: LengthUnit,
  headingUnit?: string,
): CellReading {
  const measure = parseMeasure(text, settings.decimal);
  if (measure === undefined) return notAMeasure(text, settings.decimal, into);
  const unit = measure.unit ?? lengthUnit(headingUnit ?? '') ?? into;
  return { value: convertLength(measure.value, unit, into), unit };
}

function notAMeasure(text: string, mark: DecimalMark, unit: LengthUnit): CellReading {
  const half = numberText(7.5, mark);
  const imperial = unit === 'in' || unit === 'ft' || unit === 'yd';
  return fault(
    'not-a-measure',
    `“${text}” is not a length.`,
    imperial
      ? `a number with a unit, such as 8 in, 7 1/2 in or ${half} in, or a bare number of ${unit}`
      : `a number with a unit, such as 20 cm or ${half} mm, or a bare number of ${unit}`,
    'Units are mm, cm, m, in, ft and yd.',
  );
}

export function readQuantity(text: string, settings: Settings, headingUnit?: string): CellReading {
  const counted = /^(.*\d)\s*(?:pieces?|pcs?\.?|each)$/i.exec(text);
  const count = parseNumber(counted?.[1] ?? text, settings.decimal);
  if (count !== undefined && counted !== null) return { value: count, unit: 'pieces' };
  if (count !== undefined && headingUnit === undefined) return { value: count };
  const length = readLength(text, settings, settings.cordUnit, headingUnit);
  if (!('fault' in length)) return length;
  return fault(
    'not-a-measure',
    `“${text}” is neither a number of pieces nor a length.`,
    `a number of pieces such as 2, or for cord and webbing a length such as ${settings.cordUnit === 'm' ? '30 cm' : '8 in'}`,
    'Write it in digits; units are mm, cm, m, in, ft and yd.',
  );
}

/** The heading's unit after a bare number, so that it reads as if it stood in the cell. */
function withHeading(text: string, headingUnit: string | undefined, mark: DecimalMark): string {
  return headingUnit === undefined || parseNumber(text, mark) === undefined ? text : `${text} ${headingUnit}`;
}

export function readWeight(text: string, settings: Settings, headingUnit?: string): CellReading {
  const weight = parseWeight(withHeading(text, headingUnit, settings.decimal), settings.decimal);
  return weight === undefined ? notAWeight(text, settings, '') : { value: inBookUnit(weight, settings) };
}

function inBookUnit({ value, unit }: Weight, settings: Settings): number {
  return convertWeight(value, unit ?? settings.weightUnit, settings.weightUnit);
}

/** Of one cord unit or one piece; where the cell says for which length, that is turned into one cord unit. */
export function readWeightPerUnit(text: string, settings: Settings, headingUnit?: string): CellReading {
  const whole = withHeading(text, headingUnit, settings.decimal);
  const ofLength = parseWeightOfLength(whole, settings.decimal);
  if (ofLength !== undefined)
    return { value: weightOfOne(ofLength, settings.weightUnit, settings.cordUnit), unit: 'by length' };
  const weight = parseWeight(whole, settings.decimal);
  return weight === undefined
    ? notAWeight(text, settings, `, or for cord ${numberText(6.5, settings.decimal)} g/m or 225 ft/lb`)
    : { value: inBookUnit(weight, settings) };
}

function notAWeight(text: string, { decimal, weightUnit }: Settings, orFor: string): CellReading {
  return fault(
    'not-a-measure',
    `“${text}” is not a weight.`,
    `a number with a unit, such as 12 g or ${numberText(0.5, decimal)} oz${orFor}, or a bare number of ${weightUnit}`,
    'Units are g, kg, oz and lb.',
  );
}

export function readForce(text: string, settings: Settings, headingUnit?: string): CellReading {
  const into = forceUnitOf(settings);
  const force = parseForce(text, settings.decimal);
  if (force !== undefined) {
    const unit: ForceUnit = force.unit ?? forceUnit(headingUnit ?? '') ?? into;
    return { value: convertForce(force.value, unit, into) };
  }
  return fault(
    'not-a-measure',
    `“${text}” is not a breaking strength.`,
    `a number with a unit, such as 550 lbf or ${numberText(2.4, settings.decimal)} kN, or a bare number of ${into}`,
    'Units are N, kN, lbf and kgf.',
  );
}
