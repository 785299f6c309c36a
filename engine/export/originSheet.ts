import type { PaperSize, Workbook, WorksheetProtection } from 'exceljs';
import type { Origin } from '../origin/origin.ts';
import { originCells, originTitle } from '../origin/originCells.ts';
import { font } from './cellStyles.ts';
import { textFormat } from './numberFormats.ts';
import { margins, paperOf } from './pageSetup.ts';

/** The hidden sheet that says what the workbook was written from. */
export async function writeOrigin(
  book: Workbook,
  origin: Origin,
  protection: Partial<WorksheetProtection>,
): Promise<void> {
  const page = book.addWorksheet(freeTitle(book), { state: 'hidden' });
  originCells(origin).forEach((cells, row) => {
    cells.forEach((text, at) => {
      if (text === '') return;
      const cell = page.getCell(row + 1, at + 1);
      cell.value = text;
      cell.style = style;
    });
  });
  // It is never printed; a page all the same is what every format has to know.
  page.pageSetup = { ...page.pageSetup, paperSize: paperOf(origin.settings) as PaperSize, margins };
  await page.protect('', protection);
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
