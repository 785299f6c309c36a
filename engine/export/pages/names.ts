import type { Workbook } from 'exceljs';
import { cellAddress, columnLetters } from '../../sheets/address.ts';
import type { PlanSheet } from '../../sheets/plan.ts';
import { definedName } from '../../sheets/spell.ts';

/** Names every figure of a one-row sheet, as the formulas of the workbook spell them. */
export function addNames(book: Workbook, sheet: PlanSheet): void {
  if (sheet.layout !== 'form') return;
  sheet.columns.forEach((column, at) => {
    const { column: across, row } = cellAddress(sheet, at, 0);
    book.definedNames.add(`'${sheet.title}'!$${columnLetters(across)}$${row}`, definedName(sheet, column));
  });
}
