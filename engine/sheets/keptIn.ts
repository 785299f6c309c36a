import { type ColumnDefinition, madeForm, type SheetDefinition } from './definition.ts';
import type { Kept } from './plan.ts';

/** Where in the book a maker would write the values of a column; undefined where none of its files holds them. */
export function keptIn(column: ColumnDefinition, { rows }: SheetDefinition): Kept | undefined {
  if (column.joins !== undefined) return undefined;
  if (column.from !== undefined) return { file: `${column.from}.csv`, column: column.column ?? column.id };
  if ('table' in rows) return { file: `${rows.table}.csv`, column: column.id };
  if ('form' in rows && rows.form !== 'none' && rows.form !== madeForm)
    return { file: rows.form, column: column.id };
  return undefined;
}
