import type { Settings } from '../../engine/book/settings.ts';

/** How the two demo books are written; a test says only what it is about. */
export const imperial: Settings = {
  workshop: '',
  currency: 'USD',
  currencyDigits: 2,
  decimal: 'point',
  lengthUnit: 'in',
  cordUnit: 'ft',
  weightUnit: 'oz',
};

export const metric: Settings = {
  ...imperial,
  currency: 'EUR',
  decimal: 'comma',
  lengthUnit: 'cm',
  cordUnit: 'm',
  weightUnit: 'g',
};
