import type { PlanSheet } from './plan.ts';
import { headingRow } from './planIndex.ts';

/** A1, B1 … Z1, AA1: the letters of a column counted from 0. */
export function columnLetters(at: number): string {
  let letters = '';
  for (let rest = at; rest >= 0; rest = Math.floor(rest / 26) - 1) {
    letters = String.fromCharCode(65 + (rest % 26)) + letters;
  }
  return letters;
}

/** Where a cell of a sheet stands: column from 0, row from 1, as every back end lays the sheets out. */
export interface CellAddress {
  readonly column: number;
  readonly row: number;
}

/** A table runs down from the headings; a form has one line a column, its value in the second column. */
export function cellAddress(sheet: PlanSheet, columnAt: number, row: number): CellAddress {
  return sheet.layout === 'form'
    ? { column: 1, row: headingRow + 1 + columnAt }
    : { column: columnAt, row: headingRow + 1 + row };
}

/** The row under the last record, where totals stand. A sheet without records keeps one blank row for sums to look at. */
export function totalRow(sheet: PlanSheet): number {
  return headingRow + 1 + Math.max(sheet.rowCount, 1);
}

/**
 * The order of records in the calculation engine. It parses a formula once for all rows that refer to the same
 * distance, so a crossing stands there channel by channel: then every product is as far from its prices as the
 * next. A workbook keeps the order in which people read, product by product.
 */
export function engineRow(sheet: PlanSheet, row: number): number {
  if (sheet.inner === undefined || sheet.belongs !== undefined) return row;
  const outer = sheet.rowCount / sheet.inner;
  return (row % sheet.inner) * outer + Math.floor(row / sheet.inner);
}
