import { sameKey } from '../../book/book.ts';
import { parseMeasure } from '../../book/measures/measure.ts';
import type { FieldSchema } from '../../book/schema.ts';
import type { Settings } from '../../book/settings.ts';

/** By what a material is sold, by its name (`sameKey`). */
export type SoldBy = ReadonlyMap<string, 'length' | 'piece'>;

/** By what the material of a row is sold, where a column's figures hang on that; undefined elsewhere. */
export function soldByOf(
  { kind, measuredBy }: FieldSchema,
  { file, soldBy }: { readonly file: string; readonly soldBy: SoldBy },
  cell: (column: string) => string,
): 'length' | 'piece' | undefined {
  if (kind !== 'quantity' && kind !== 'weight_per_unit') return undefined;
  if (measuredBy !== undefined) return soldBy.get(sameKey(cell(measuredBy)));
  if (file !== 'materials.csv') return undefined;
  const word = sameKey(cell('sold_by'));
  return word === 'length' || word === 'piece' ? word : undefined;
}

/** Whether a figure is written as one of a material that is sold so. */
export function isAlike(
  text: string,
  { kind }: FieldSchema,
  sold: 'length' | 'piece' | undefined,
  { decimal }: Settings,
): boolean {
  if (sold === undefined || (kind !== 'quantity' && kind !== 'weight_per_unit')) return true;
  if (kind === 'weight_per_unit') return /\/| per /i.test(text) === (sold === 'length');
  const pieces = /(?:pieces?|pcs?\.?|each)$/i.test(text);
  return sold === 'piece' ? pieces : !pieces && parseMeasure(text, decimal)?.unit !== undefined;
}
