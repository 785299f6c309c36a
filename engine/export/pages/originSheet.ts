import type { PaperSize, Workbook, Worksheet, WorksheetProtection } from 'exceljs';
import type { Origin } from '../../origin/origin.ts';
import { originCells, originTitle } from '../../origin/originCells.ts';
import { font } from './cellStyles.ts';
import { textFormat } from './numberFormats.ts';
import { margins, paperOf } from './pageSetup.ts';
import type { Records } from './records.ts';

/** The hidden sheet that says what the workbook was written from. Its rows are given back, to be written later. */
export async function writeOrigin(
  book: Workbook,
  origin: Origin,
  protection: Partial<WorksheetProtection>,
): Promise<readonly [Worksheet, Records]> {
  const page = book.addWorksheet(freeTitle(book), { state: 'hidden' });
  const rows = originCells(origin);
  const columns = rows.reduce((most, cells) => Math.max(most, cells.length), 0);
  for (let column = 1; column <= columns; column += 1) page.getCell(1, column).style = style;
  // It is never printed; a page all the same is what every format has to know.
  page.pageSetup = { ...page.pageSetup, paperSize: paperOf(origin.settings) as PaperSize, margins };
  await page.protect('', protection);
  const contents = (at: number): (string | undefined)[] =>
    (rows[at] ?? []).map((text) => (text === '' ? undefined : text));
  return [page, { top: 1, count: rows.length, heights: new Map(), contents }];
}

/** Made once: every cell that is given a style of its own costs time. */
const style = { font: font(), numFmt: textFormat } as const;

/** A book's own sheet may have taken the name. */
function freeTitle(book: Workbook): string {
  const taken = new Set(book.worksheets.map(({ name }) => name.toLowerCase()));
  let title: string = originTitle;
  for (let number = 2; taken.has(title.toLowerCase()); number += 1) title = `${originTitle} ${number}`;
  return title;
}
