import type { Style, Worksheet } from 'exceljs';
import { type OriginSheet, otherRowName, spareLines, spareName } from '../../origin/origin.ts';
import { columnLetters, totalRow } from '../../sheets/address.ts';
import type { PlanColumn, PlanSheet } from '../../sheets/plan.ts';
import type { PlanIndex } from '../../sheets/planIndex.ts';
import { cellStyle, quietStyle } from './cellStyles.ts';
import { writeRowName } from './rowNames.ts';
import { addValidation } from './validation.ts';

const sentence =
  'Lines for new rows. sennit takein brings them into the book; they are reckoned with in the next workbook.';

/**
 * Empty lines under a table for rows that its maker wants to add. They stand under the totals, so that no range of a
 * formula or a drop-down takes them in, and outside of what is printed.
 */
export function writeSpareLines(
  page: Worksheet,
  sheet: PlanSheet,
  origin: OriginSheet,
  index: PlanIndex,
): void {
  if (origin.table === undefined) return;
  const hasTotals = sheet.columns.some(({ total }) => total !== undefined);
  // A table without totals keeps a blank row between its records and this.
  const top = totalRow(sheet) + (hasTotals ? 2 : 1);
  const { border: _, ...plain } = quietStyle;
  page.getCell(top, 1).value = sentence;
  page.getCell(top, 1).style = { ...plain, alignment: { vertical: 'middle', horizontal: 'left', indent: 1 } };
  writeRowName(page, sheet, top, otherRowName(sheet.id, 'spare'));
  for (let line = 1; line <= spareLines; line += 1)
    writeRowName(page, sheet, top + line, spareName(sheet.id, line));
  sheet.columns.forEach((column, at) => {
    if (origin.columns[at]?.file !== origin.table) return;
    const style = openStyle(column, index);
    for (let line = 1; line <= spareLines; line += 1) page.getCell(top + line, at + 1).style = style;
    const letters = columnLetters(at);
    const open: PlanColumn = column.role === 'key' ? { ...column, role: 'input' } : column;
    addValidation(page, `${letters}${top + 1}:${letters}${top + spareLines}`, open, index);
  });
}

/** As the column's own cells look, but what names a row is to be filled in here. */
function openStyle(column: PlanColumn, index: PlanIndex): Partial<Style> {
  const { settings } = index.plan;
  return cellStyle(column.role === 'key' ? { ...column, role: 'input' } : column, settings);
}
