import type { Style, Worksheet } from 'exceljs';
import { type OriginSheet, otherRowName, sheetName } from '../../origin/origin.ts';
import { cellAddress, totalRow } from '../../sheets/address.ts';
import type { PlanSheet } from '../../sheets/plan.ts';
import { headingRow } from '../../sheets/planIndex.ts';
import { quietStyle } from './cellStyles.ts';
import { textFormat } from './numberFormats.ts';
import { type Records, withColumn } from './records.ts';

/** Where the names of rows stand, counted from 1: behind the last column of a table, or the note of a form. */
export function nameColumn(sheet: PlanSheet): number {
  return sheet.layout === 'form' ? 5 : sheet.columns.length + 1;
}

/**
 * Gives every row of a sheet its name, in a hidden and locked column behind the last one: it travels with the row
 * where rows are sorted, and is gone where a row is removed.
 *
 * @param records the sheet's records
 * @returns the records with their names
 */
export function writeRowNames(
  page: Worksheet,
  sheet: PlanSheet,
  origin: OriginSheet,
  records: Records | undefined,
): Records | undefined {
  if (!origin.named) return records;
  writeRowName(page, sheet, headingRow, sheetName(sheet.id));
  if (sheet.layout === 'form')
    origin.rows.forEach(({ name }, at) => {
      writeRowName(page, sheet, cellAddress(sheet, at, 0).row, name);
    });
  if (sheet.columns.some(({ total }) => total !== undefined))
    writeRowName(page, sheet, totalRow(sheet), otherRowName(sheet.id, 'total'));
  const column = page.getColumn(nameColumn(sheet));
  column.width = 2;
  column.hidden = true;
  if (records === undefined) return undefined;
  page.getCell(records.top, nameColumn(sheet)).style = nameStyle;
  return withColumn(records, nameColumn(sheet), (at) => origin.rows[at]?.name ?? null);
}

/** Names one row. */
export function writeRowName(page: Worksheet, sheet: PlanSheet, row: number, name: string): void {
  const cell = page.getCell(row, nameColumn(sheet));
  cell.value = name;
  cell.style = nameStyle;
}

const nameStyle: Partial<Style> = {
  font: quietStyle.font ?? {},
  numFmt: textFormat,
  protection: { locked: true },
};
