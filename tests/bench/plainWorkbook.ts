import ExcelJS from 'exceljs';
import type { Values } from '../../engine/calc/values.ts';
import { cellContent, cellText } from '../../engine/export/pages/cellContent.ts';
import { columnLetters } from '../../engine/sheets/address.ts';
import type { Plan } from '../../engine/sheets/plan.ts';
import { headingRow, PlanIndex } from '../../engine/sheets/planIndex.ts';
import { Speller, workbookSpelling } from '../../engine/sheets/spell.ts';

/**
 * The peer of the workbook: exceljs alone with the same headings, inputs, formulas and results, but without styles,
 * rules, names, page set-up or the record of where the workbook came from.
 */
export async function plainWorkbook(plan: Plan, values: Values): Promise<Uint8Array> {
  const speller = new Speller(new PlanIndex(plan), workbookSpelling);
  const book = new ExcelJS.Workbook();
  for (const sheet of plan.sheets) {
    const page = book.addWorksheet(sheet.title);
    sheet.columns.forEach((column, at) => {
      const letters = columnLetters(at);
      page.getCell(`${letters}${headingRow}`).value = cellText(column.heading);
      for (let row = 0; row < sheet.rowCount; row += 1)
        page.getCell(`${letters}${headingRow + 1 + row}`).value = cellContent(
          sheet,
          column,
          row,
          speller,
          values,
        );
    });
  }
  return new Uint8Array((await book.xlsx.writeBuffer()) as ArrayBuffer);
}
