import ExcelJS from 'exceljs';
import type { Values } from '../../engine/calc/values.ts';
import { workbook } from '../../engine/export/workbook.ts';
import { cellAddress, columnLetters } from '../../engine/sheets/address.ts';
import type { Plan } from '../../engine/sheets/plan.ts';
import { PlanIndex } from '../../engine/sheets/planIndex.ts';
import { type BookText, demoBook, pricedBook } from './books.ts';

/** A book's workbook, read back. */
export interface WrittenPages {
  readonly plan: Plan;
  readonly book: ExcelJS.Workbook;
  page(sheetId: string): ExcelJS.Worksheet;
  /** The cell of a record, or of a column's heading at row -1. */
  cell(sheetId: string, columnId: string, row: number): ExcelJS.Cell;
}

export async function writtenPages(text: BookText = demoBook('starter')): Promise<WrittenPages> {
  const { plan, values } = pricedBook(text);
  return pagesOf(plan, values);
}

/** The workbook of a calculated plan, read back. */
export async function pagesOf(plan: Plan, values: Values): Promise<WrittenPages> {
  const bytes = await workbook(plan, values, { date: '2026-03-02', version: '9.8.7' });
  const book = new ExcelJS.Workbook();
  await book.xlsx.load(bytes.buffer as ArrayBuffer);
  const index = new PlanIndex(plan);
  const page = (sheetId: string): ExcelJS.Worksheet => {
    const found = book.getWorksheet(index.sheet(sheetId).sheet.title);
    if (found === undefined) throw new Error(`no page ${sheetId}`);
    return found;
  };
  return {
    plan,
    book,
    page,
    cell: (sheetId, columnId, row) => {
      const { sheet, columns } = index.sheet(sheetId);
      const place = cellAddress(sheet, columns.get(columnId)?.at ?? -1, row);
      return page(sheetId).getCell(`${columnLetters(place.column)}${place.row}`);
    },
  };
}
