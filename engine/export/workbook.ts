import ExcelJS from 'exceljs';
import type { Values } from '../calc/values.ts';
import { originOf, type WrittenFrom } from '../origin/originOf.ts';
import { provenanceOf } from '../origin/provenance.ts';
import { totalRow } from '../sheets/address.ts';
import type { Plan, PlanSheet } from '../sheets/plan.ts';
import { headingRow, PlanIndex } from '../sheets/planIndex.ts';
import { Speller, workbookSpelling } from '../sheets/spell.ts';
import { openDocument } from './ods/openDocument.ts';
import { writeForm } from './pages/formSheet.ts';
import { addNames } from './pages/names.ts';
import { writeOrigin } from './pages/originSheet.ts';
import { type About, setUpPage, titleOf } from './pages/pageSetup.ts';
import type { Pages, Records } from './pages/records.ts';
import { nameColumn, writeRowNames } from './pages/rowNames.ts';
import { writeSpareLines } from './pages/spareLines.ts';
import { writeStart } from './pages/startSheet.ts';
import { leadingKeys, writeTable } from './pages/tableSheet.ts';
import { accent, line } from './palette.ts';
import { packFile } from './xlsx/packFile.ts';

/** The sheet that is laid out as the workbook's first page. */
const startSheet = 'start';

/** A guard rail, without a password: cells can be selected and columns made wider, nothing else. */
const protection = {
  selectLockedCells: true,
  selectUnlockedCells: true,
  formatColumns: true,
  formatRows: true,
} as const;

/** File formats of a workbook: Office Open XML, and OpenDocument. */
export type WorkbookFormat = 'xlsx' | 'ods';

/**
 * Writes a calculated plan as a workbook in which every computed cell is a native formula with its value. The
 * same plan, values, date and version give the same bytes.
 *
 * @param about the day to print on it (ISO date), the version of this program, and the files of the book
 * @returns the bytes of the file
 */
export async function workbook(
  plan: Plan,
  values: Values,
  about: About & WrittenFrom,
  format: WorkbookFormat = 'xlsx',
): Promise<Uint8Array> {
  const { book, records } = await pages(plan, values, about);
  if (format === 'ods') return openDocument(book, about.date, records);
  // Not compressed here: packFile packs it once more.
  const bytes = await book.xlsx.writeBuffer({
    zip: { compression: 'STORE' },
  } as Partial<ExcelJS.XlsxWriteOptions>);
  return packFile(new Uint8Array(bytes as ArrayBuffer), about.date, records);
}

/** The workbook as an object: here, and in what it calls, is decided what it looks like in any format. */
async function pages(plan: Plan, values: Values, about: About & WrittenFrom): Promise<Pages> {
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
  const from = originOf(plan, about);
  const provenance = provenanceOf(from, about.files);
  // A workbook of another kind, such as a month's, is handed over and does not come home.
  const origin = about.front === undefined ? from : undefined;
  const records = new Map<ExcelJS.Worksheet, Records>();
  for (const [at, sheet] of plan.sheets.entries()) {
    let own: Records | undefined;
    const page = book.addWorksheet(sheet.title, { properties: { tabColor: { argb: tabColour(sheet) } } });
    if (sheet.id === startSheet) writeStart(page, sheet, index, speller, values, { ...about, provenance });
    else if (sheet.layout === 'form') writeForm(page, sheet, index, speller, values);
    else own = writeTable(page, sheet, index, speller, values);
    setUpPage(page, plan.settings, about, {
      keyColumns: sheet.layout === 'form' ? 0 : leadingKeys(sheet),
      lastRow: lastRow(page, sheet),
      onePage: sheet.id === startSheet,
      empty: sheet.layout === 'table' && own === undefined,
      ...(origin === undefined ? {} : { hiddenColumn: nameColumn(sheet) }),
    });
    const from = origin?.sheets[at];
    if (from !== undefined) {
      own = writeRowNames(page, sheet, from, own);
      writeSpareLines(page, sheet, from, index);
    }
    if (own !== undefined) records.set(page, own);
    await page.protect('', protection);
    addNames(book, sheet);
  }
  if (origin !== undefined) records.set(...(await writeOrigin(book, origin, protection)));
  return { book, records };
}

function lastRow(page: ExcelJS.Worksheet, sheet: PlanSheet): number {
  return Math.max(page.rowCount, sheet.layout === 'form' ? headingRow + 1 : totalRow(sheet) - 1);
}

/** Sheets that the maker fills in have a quiet tab, sheets of results a strong one. */
function tabColour(sheet: PlanSheet): string {
  const open = sheet.columns.some((column) => column.role === 'input');
  return open ? line : accent;
}
