import ExcelJS from 'exceljs';
import type { Values } from '../calc/values.ts';
import { totalRow } from '../sheets/address.ts';
import type { Plan, PlanSheet } from '../sheets/plan.ts';
import { headingRow, PlanIndex } from '../sheets/planIndex.ts';
import { Speller, workbookSpelling } from '../sheets/spell.ts';
import { writeForm } from './formSheet.ts';
import { addNames } from './names.ts';
import { packFile } from './packFile.ts';
import { type About, setUpPage, titleOf } from './pageSetup.ts';
import { accent, line } from './palette.ts';
import { writeStart } from './startSheet.ts';
import { leadingKeys, writeTable } from './tableSheet.ts';

/** The sheet that is laid out as the workbook's first page. */
const startSheet = 'start';

/** A guard rail, without a password: cells can be selected and columns made wider, nothing else. */
const protection = {
  selectLockedCells: true,
  selectUnlockedCells: true,
  formatColumns: true,
  formatRows: true,
} as const;

/**
 * Writes a calculated plan as an .xlsx workbook in which every computed cell is a native formula with its
 * value. The same plan, values, date and version give the same bytes.
 *
 * @param about the day to print on it (ISO date) and the version of this program
 * @returns the bytes of the file
 */
export async function workbook(plan: Plan, values: Values, about: About): Promise<Uint8Array> {
  const index = new PlanIndex(plan);
  const speller = new Speller(index, workbookSpelling);
  const book = new ExcelJS.Workbook();
  const day = new Date(about.date);
  book.creator = `Sennit ${about.version}`;
  book.lastModifiedBy = book.creator;
  book.created = day;
  book.modified = day;
  book.title = titleOf(plan.settings, about);
  book.calcProperties.fullCalcOnLoad = true;
  for (const sheet of plan.sheets) {
    const page = book.addWorksheet(sheet.title, { properties: { tabColor: { argb: tabColour(sheet) } } });
    if (sheet.id === startSheet) writeStart(page, sheet, index, speller, values, about);
    else if (sheet.layout === 'form') writeForm(page, sheet, index, speller, values);
    else writeTable(page, sheet, index, speller, values);
    setUpPage(page, plan.settings, about, {
      keyColumns: sheet.layout === 'form' ? 0 : leadingKeys(sheet),
      lastRow: lastRow(page, sheet),
      onePage: sheet.id === startSheet,
    });
    await page.protect('', protection);
    addNames(book, sheet);
  }
  // Not compressed here: packFile packs it once more.
  const bytes = await book.xlsx.writeBuffer({
    zip: { compression: 'STORE' },
  } as Partial<ExcelJS.XlsxWriteOptions>);
  return packFile(new Uint8Array(bytes as ArrayBuffer), about.date);
}

function lastRow(page: ExcelJS.Worksheet, sheet: PlanSheet): number {
  return Math.max(page.rowCount, sheet.layout === 'form' ? headingRow + 1 : totalRow(sheet) - 1);
}

/** Sheets that the maker fills in have a quiet tab, sheets of results a strong one. */
function tabColour(sheet: PlanSheet): string {
  const open = sheet.columns.some((column) => column.role === 'input');
  return open ? line : accent;
}
