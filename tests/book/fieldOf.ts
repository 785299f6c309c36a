import type { FieldSchema, TableSchema } from '../../engine/book/schema.ts';
import type { Settings } from '../../engine/book/settings.ts';

/** A field with only what a test is about. */
export function fieldOf(id: string, rest: Partial<FieldSchema> = {}): FieldSchema {
  return { id, kind: 'text', required: false, ...rest };
}

export function tableOf(
  table: string,
  fields: readonly FieldSchema[],
  rest: Partial<TableSchema> = {},
): TableSchema {
  return { table, fields, key: [fields[0]?.id ?? ''], needed: false, ...rest };
}

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
