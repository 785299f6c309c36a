import type { BookValue } from '../../book/book.ts';
import type { OriginColumn, OriginRow } from '../../origin/origin.ts';
import { heldValue, type LocatedSheet } from '../compare/locateSheet.ts';
import { keyOf } from '../compare/sameValue.ts';
import type { BookRows } from './bookRows.ts';

/** Where in the book a change goes. Rows are those of the book's table as read, counted from 0. */
export type Target =
  | { readonly kind: 'line' }
  | { readonly kind: 'row'; readonly row: number }
  /** A table with rows only for some names: the row of these, which may not be there yet; then as `like` another row. */
  | {
      readonly kind: 'pair';
      readonly key: ReadonlyMap<string, BookValue>;
      readonly row: number | undefined;
      readonly like?: number | undefined;
    };

/** A row of the origin, where it is in the workbook, and in the book's table; undefined where it is gone there. */
export interface BoundRow {
  readonly origin: OriginRow;
  readonly row: number;
  readonly inBook: number | undefined;
}

/** Where in the book a cell of a row goes; undefined where the book no longer has the row. */
export function targetOf(
  sheet: LocatedSheet,
  origin: OriginRow,
  column: OriginColumn,
  inBook: number | undefined,
  rowsOf: (file: string) => BookRows,
): Target | undefined {
  if (column.file === sheet.origin.table || (sheet.origin.table === undefined && isOwnTable(sheet, column)))
    return inBook === undefined ? undefined : { kind: 'row', row: inBook };
  const key = new Map(sheet.origin.key.map((id) => [id, heldValue(sheet, origin, id) as BookValue]));
  return { kind: 'pair', key, row: rowsOf(column.file ?? '').find(keyOf([...key.values()])) };
}

/** Whether the keys of the sheet stand in the same table, so that its rows are that table's. */
export function isOwnTable(sheet: LocatedSheet, { file }: OriginColumn): boolean {
  return sheet.origin.columns.some((each) => each.role === 'key' && each.file === file);
}
