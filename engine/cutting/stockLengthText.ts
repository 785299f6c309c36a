import { convertLength, type LengthUnit, parseMeasure } from '../book/measures/measure.ts';
import { numberText } from '../book/measures/numberText.ts';
import type { Settings } from '../book/settings.ts';

/** Finer than any tape; rounded down, so that no cord is written that is not there. */
const steps = 1000;

function down(value: number, fineness: number = steps): number {
  return Math.floor(value * fineness + 1e-6) / fineness;
}

/**
 * What a row of stock.csv holds, written as its maker writes: a bare number where the model is one, in the
 * model's own unit otherwise, and feet with inches where feet alone would not be whole.
 *
 * @param holds in the cord unit, or in pieces
 * @param model a length of the same table, as text; blank where there is none
 * @param headingUnit the unit of bare numbers where the heading says it
 */
export function stockLengthText(
  holds: number,
  of: 'length' | 'pieces',
  model: string,
  headingUnit: LengthUnit | undefined,
  settings: Settings,
): string {
  const text = (value: number): string => numberText(value, settings.decimal);
  if (of === 'pieces') {
    const word = /\d\s*(pieces?|pcs?\.?|each)$/i.exec(model)?.[1];
    const said = word ?? (headingUnit === undefined ? undefined : 'pcs');
    return said === undefined ? text(down(holds)) : `${text(down(holds))} ${said}`;
  }
  const measure = parseMeasure(model, settings.decimal);
  if (measure !== undefined && measure.unit === undefined)
    return text(down(convertLength(holds, settings.cordUnit, headingUnit ?? settings.cordUnit)));
  // Feet and inches together are read as inches, and a maker who writes them so wants feet.
  const unit = measure?.unit === undefined || /ft|feet|foot|'|′|’/i.test(model) ? undefined : measure.unit;
  const into = unit ?? (measure === undefined ? settings.cordUnit : 'ft');
  if (into !== 'ft') return `${text(down(convertLength(holds, settings.cordUnit, into)))} ${into}`;
  const inches = down(convertLength(holds, settings.cordUnit, 'in'), 100);
  const feet = Math.floor(inches / 12);
  const rest = down(inches - feet * 12, 100);
  return rest === 0 ? `${feet} ft` : feet === 0 ? `${text(rest)} in` : `${feet} ft ${text(rest)} in`;
}
