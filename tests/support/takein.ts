import ExcelJS from 'exceljs';
import { evaluate } from '../../engine/calc/evaluate.ts';
import { type WorkbookFormat, workbook } from '../../engine/export/workbook.ts';
import { columnLetters } from '../../engine/sheets/address.ts';
import { switchBook } from '../../engine/switchBook.ts';
import { type TakeinReport, takeinBook } from '../../engine/takeinBook.ts';
import { type BookText, sourceOf } from './books.ts';

/** The workbook of a book, scenarios and all, as `sennit workbook` writes it. */
export async function workbookOf(book: BookText, format: WorkbookFormat = 'xlsx'): Promise<Uint8Array> {
  const { plan, problems } = switchBook(sourceOf(book));
  if (plan === undefined) throw new Error(problems.map(({ message }) => message).join('\n'));
  return workbook(plan, evaluate(plan), { date: '2026-03-02', version: '0.0.0', files: book }, format);
}

/** A workbook changed by a library, as another program might save it. */
export async function changed(
  bytes: Uint8Array,
  change: (book: ExcelJS.Workbook) => void,
): Promise<Uint8Array> {
  const book = new ExcelJS.Workbook();
  await book.xlsx.load(bytes.slice().buffer as ArrayBuffer);
  change(book);
  return new Uint8Array((await book.xlsx.writeBuffer()) as ArrayBuffer);
}

/** A sheet by its title, with its cells by row name and heading. */
export function page(book: ExcelJS.Workbook, title: string): ExcelJS.Worksheet {
  const found = book.getWorksheet(title);
  if (found === undefined) throw new Error(`no sheet ${title}`);
  return found;
}

/** The column with that heading, from 1. */
export function columnOf(sheet: ExcelJS.Worksheet, heading: string): number {
  for (let column = 1; column <= sheet.columnCount; column += 1)
    if (sheet.getCell(2, column).value === heading) return column;
  throw new Error(`${sheet.name} has no column ${heading}`);
}

/** The row in which a cell of the first columns holds a text, from 1. */
export function rowOf(sheet: ExcelJS.Worksheet, ...texts: string[]): number {
  for (let row = 3; row <= sheet.rowCount; row += 1)
    if (texts.every((text, at) => sheet.getCell(row, at + 1).value === text)) return row;
  throw new Error(`${sheet.name} has no row ${texts.join(', ')}`);
}

/** The first empty line under a table. */
export function spareRow(sheet: ExcelJS.Worksheet, line = 1): number {
  for (let row = 3; row <= sheet.rowCount; row += 1)
    for (let column = 1; column <= sheet.columnCount; column += 1)
      if (String(sheet.getCell(row, column).value).endsWith(`:new ${line}`)) return row;
  throw new Error(`${sheet.name} has no empty lines`);
}

export function cell(sheet: ExcelJS.Worksheet, row: number, heading: string): ExcelJS.Cell {
  return sheet.getCell(`${columnLetters(columnOf(sheet, heading) - 1)}${row}`);
}

/** What a workbook brings into a book. */
export function takenIn(book: BookText, bytes: Uint8Array, prefer?: 'workbook' | 'book'): TakeinReport {
  return takeinBook(sourceOf(book), {
    file: 'book.xlsx',
    bytes,
    ...(prefer === undefined ? {} : { prefer }),
  });
}

/** Changes as short texts: `Materials slate cord, Pack price, USD: 61 -> 62`. */
export function told({ changes }: TakeinReport): string[] {
  return changes.map(({ how, sheet, row, heading, before, after }) =>
    how === 'removed'
      ? `${sheet} ${row}: removed`
      : `${sheet} ${row}, ${heading}: ${how === 'added' ? 'new' : before} -> ${after}`,
  );
}

/** What is refused: code, sheet, cell and message of each problem. Nothing may be written then. */
export function refused(report: TakeinReport): string[] {
  if (report.files.size > 0) throw new Error('files would be written');
  return report.problems.map(
    ({ code, where, message }) => `${code} ${where.sheet ?? ''} ${where.cell ?? ''}: ${message}`,
  );
}
