import { convertLength, feetAndInches, type LengthUnit } from '../../book/measures/measure.ts';
import type { Settings } from '../../book/settings.ts';
import { roundTo } from '../../money/rounding.ts';
import { showNumber, showTrimmed } from '../../sheets/showValue.ts';

/** A length in the maker's short unit, with it: `7.5 in`, `18 cm`. */
export function lengthText(lengthMm: number, settings: Settings): string {
  const unit = settings.lengthUnit;
  return `${showTrimmed(convertLength(lengthMm, 'mm', unit), unit === 'mm' ? 0 : 2, settings)} ${unit}`;
}

/** A yard: from here on, inches are hard to see before one, and feet stand beside them. */
const feetFromMm = convertLength(3, 'ft', 'mm');

/** As `lengthText`, with feet beside many inches: `72 in (6 ft)`. */
export function longText(lengthMm: number, settings: Settings): string {
  const own = lengthText(lengthMm, settings);
  return settings.lengthUnit === 'in' && lengthMm >= feetFromMm
    ? `${own} (${feetText(lengthMm, settings)})`
    : own;
}

/** A length in one of the book's units, for a column whose heading says which. */
export function lengthFigure(lengthMm: number, unit: LengthUnit, settings: Settings): string {
  return showNumber(convertLength(lengthMm, 'mm', unit), unit === 'mm' ? 0 : unit === 'cm' ? 1 : 2, settings);
}

/** As a tape in feet and inches reads: `4 ft 7.5 in`, `2 ft`, `9 in`. */
export function feetText(lengthMm: number, settings: Settings): string {
  // Rounded before it is parted, so that nothing reads 3 ft 12 in.
  const inches = roundTo(convertLength(lengthMm, 'mm', 'in'), 2);
  const parted = feetAndInches(convertLength(inches, 'in', 'mm'));
  const rest = showTrimmed(parted.inches, 2, settings);
  if (parted.feet === 0) return `${rest} in`;
  return rest === '0' ? `${parted.feet} ft` : `${parted.feet} ft ${rest} in`;
}

/** The metric unit that stands beside feet and inches: the book's own, or centimetres. */
export function metricUnit(settings: Settings): 'cm' | 'mm' {
  return settings.lengthUnit === 'mm' ? 'mm' : 'cm';
}

/** To the millimetre, which is what a tape shows, without the unit. */
export function metricFigure(lengthMm: number, settings: Settings): string {
  const unit = metricUnit(settings);
  return showNumber(convertLength(lengthMm, 'mm', unit), unit === 'cm' ? 1 : 0, settings);
}

/** Diameters, widths and other small measures, whatever the book's unit: `4 mm`, `18.9 mm`. */
export function fineText(lengthMm: number, settings: Settings): string {
  return `${showTrimmed(lengthMm, 1, settings)} mm`;
}
