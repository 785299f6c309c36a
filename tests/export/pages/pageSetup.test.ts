import ExcelJS from 'exceljs';
import { expect, test } from 'vitest';
import type { Settings } from '../../../engine/book/settings.ts';
import { paperOf, setUpPage, titleOf } from '../../../engine/export/pages/pageSetup.ts';
import { imperial } from '../../support/settings.ts';

const settings: Settings = { ...imperial, workshop: '3 Knots & Co' };
const about = { date: '2026-03-02', version: '1.2.3' };

/** A sheet with so many columns of ten and so many rows, set up for printing. */
function page(
  columns: number,
  rows: number,
  own: Settings = settings,
  sentence: string = 'What is it?',
): ExcelJS.Worksheet {
  const made = new ExcelJS.Workbook().addWorksheet('Page');
  made.getCell('A1').value = sentence;
  for (let at = 1; at <= columns; at += 1) {
    made.getColumn(at).width = 10;
    made.getRow(2).getCell(at).value = 'Heading';
    if (rows > 2) made.getRow(3).getCell(at).value = at;
  }
  setUpPage(made, own, about, { keyColumns: 2, lastRow: rows, onePage: false, empty: rows <= 2 });
  return made;
}

test('a sheet takes the pages across that keep it readable, and repeats its keys on each', () => {
  expect(page(10, 5).pageSetup).toMatchObject({
    fitToWidth: 1,
    fitToHeight: 0,
    printTitlesRow: '1:2',
    printArea: 'A$1:J$5',
  });
  const wide = page(38, 5);
  expect(wide.pageSetup).toMatchObject({
    fitToWidth: 2,
    printTitlesColumn: 'A:B',
    printTitlesRow: '2:2',
    printArea: 'A$2:AL$5',
  });
  expect(wide.headerFooter.oddHeader).toContain('What is it?');
});

test('text is printed at six and a half points or more', () => {
  for (let columns = 10; columns <= 90; columns += 1) {
    const { fitToWidth = 1 } = page(columns, 5).pageSetup;
    const printed = columns * 10 + (fitToWidth - 1) * 20;
    expect((10 * 136 * fitToWidth) / printed, `${columns} columns`).toBeGreaterThan(6.49);
  }
});

test('no page is saved at the cost of smaller print', () => {
  // Rows of 15 points on pages of 500: two columns of ten repeat, and 20 columns are printed at 68 %.
  for (let rows = 20; rows <= 130; rows += 5) {
    const { fitToHeight = 0 } = page(20, rows).pageSetup;
    const down = fitToHeight === 0 ? Number.POSITIVE_INFINITY : (fitToHeight * 500) / (rows * 15);
    expect(10 * Math.min(136 / 200, down), `${rows} rows`).toBeGreaterThan(6.49);
  }
});

test('a sheet without rows takes one page, as wide as its sentence', () => {
  const { pageSetup, headerFooter } = page(40, 2);
  expect(pageSetup).toMatchObject({ fitToWidth: 1, printTitlesRow: '1:2', printArea: 'A$1:B$2' });
  expect(headerFooter.oddHeader).not.toContain('What is it?');
});

test('keys that would fill the page are not all repeated', () => {
  const made = new ExcelJS.Workbook().addWorksheet('Page');
  for (let at = 1; at <= 6; at += 1) {
    made.getColumn(at).width = 60;
    made.getRow(3).getCell(at).value = at;
  }
  setUpPage(made, settings, about, { keyColumns: 4, lastRow: 3, onePage: false, empty: false });
  // 60 of the 209 that fit onto a page; 120 would be more than half of it.
  expect(made.pageSetup).toMatchObject({ fitToWidth: 3, printTitlesColumn: 'A:A' });
});

test('the print area reaches to the end of the sentence', () => {
  const narrow = new ExcelJS.Workbook().addWorksheet('Page');
  narrow.getCell('A1').value = 'What the workshop costs in a month before a single piece is made.';
  narrow.getColumn(1).width = 10;
  setUpPage(narrow, settings, about, { keyColumns: 1, lastRow: 9, onePage: false, empty: false });
  expect(narrow.pageSetup.printArea).toMatch(/^A\$1:[F-L]\$9$/);
});

test('two rows too many do not cost a page', () => {
  expect(page(10, 35).pageSetup.fitToHeight).toBe(1);
  expect(page(10, 55).pageSetup.fitToHeight).toBe(0);
});

test('an ampersand or a digit in a name is no code to a header', () => {
  expect(page(5, 5).headerFooter.oddHeader).toContain('&10 3 Knots && Co: costs and prices');
  expect(titleOf({ ...settings, workshop: '' })).toBe('Costs and prices');
});

test('paper follows the units of the book', () => {
  expect([paperOf(settings), paperOf({ ...settings, lengthUnit: 'cm' })]).toEqual([1, 9]);
});

test('a header stays within 255 characters, codes and doubled ampersands counted', () => {
  for (const [workshop, sentence] of [
    ['W'.repeat(40_000), 'What is it?'],
    ['&'.repeat(300), '&'.repeat(300)],
    ['Weir', 'Q'.repeat(40_000)],
  ] as const) {
    for (const columns of [5, 40]) {
      const { oddHeader } = page(columns, 5, { ...settings, workshop }, sentence).headerFooter;
      expect(oddHeader?.length).toBeLessThanOrEqual(255);
      // The sentence is in the header only where the sheet goes over several pages.
      if (columns === 40 || workshop.length > 100) expect(oddHeader).toContain('…');
      expect(oddHeader).toMatch(/&R&"[^"]+"&10&A$/);
      // Ampersands that are no code stand in pairs.
      expect((oddHeader ?? '').replaceAll('&&', '').match(/&/g)).toHaveLength(7);
    }
  }
  expect(titleOf({ ...settings, workshop: 'W'.repeat(40_000) }).length).toBeLessThan(255);
});

test('the print area ends within the columns that there are, however long the sentence', () => {
  expect(page(5, 5, settings, 'W'.repeat(30_000)).pageSetup.printArea).toMatch(/^A\$1:[A-Z]{1,2}\$5$/);
});
