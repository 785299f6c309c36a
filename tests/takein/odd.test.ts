import type ExcelJS from 'exceljs';
import { describe, expect, test } from 'vitest';
import { demoBook } from '../support/books.ts';
import {
  cell,
  changed,
  columnOf,
  page,
  refused,
  rowOf,
  takenIn,
  told,
  workbookOf,
} from '../support/takein.ts';

const starter = demoBook('starter');
const bytes = await workbookOf(starter);
const price = 'Pack price, USD';

function copied(sheet: ExcelJS.Worksheet, copy: ExcelJS.Worksheet): ExcelJS.Worksheet {
  sheet.eachRow((row, at) => {
    row.eachCell((each, column) => {
      copy.getCell(at, column).value = each.value;
    });
  });
  return copy;
}

/** Exchanges two rows of a sheet, up to a column. */
function swap(sheet: ExcelJS.Worksheet, one: number, other: number, last = sheet.columnCount): void {
  for (let column = 1; column <= last; column += 1) {
    const value = sheet.getCell(one, column).value;
    sheet.getCell(one, column).value = sheet.getCell(other, column).value;
    sheet.getCell(other, column).value = value;
  }
}

describe('a copy of a sheet', () => {
  test('that says nothing else is left alone, and named', async () => {
    const kept = await changed(bytes, (book) => {
      const sheet = page(book, 'Materials');
      copied(sheet, book.addWorksheet('Materials before'));
      cell(sheet, 3, price).value = 64;
    });
    const report = takenIn(starter, kept);
    expect(told(report)).toEqual(['Materials slate cord, Pack price, USD: 61 -> 64']);
    expect(report.remarks.map(({ message }) => message)).toEqual([
      'The sheet Materials before is a copy of Materials; the copy is left alone.',
    ]);
  });

  test('that was changed instead of the sheet is refused, so that nothing of it is lost', async () => {
    for (const where of ['Materials', 'Rates']) {
      const other = await changed(bytes, (book) => {
        const copy = copied(page(book, where), book.addWorksheet('Another'));
        copy.getCell(where === 'Rates' ? `B${rowOf(copy, 'Wage')}` : `I${rowOf(copy, 'slate cord')}`).value =
          64;
      });
      expect(refused(takenIn(starter, other))).toEqual([
        expect.stringMatching(
          RegExp(`^workbook-layout Another [BI]3: The sheet Another is a copy of ${where}, was changed, and`),
        ),
      ]);
    }
  });
});

describe('rows and columns that were moved', () => {
  test('are what they are: rows exchanged with their names or without, sheets elsewhere, a column further', async () => {
    const both = await changed(bytes, (book) => {
      swap(page(book, 'Materials'), 3, 5);
      const products = page(book, 'Products');
      swap(products, 3, 4, products.columnCount - 1);
      cell(products, 4, 'Name').value = 'A short one';
      (page(book, 'Overheads') as unknown as { orderNo: number }).orderNo = 99;
    });
    const report = takenIn(starter, both);
    expect(report.problems).toEqual([]);
    expect(told(report)).toEqual(['Products fob short, Name: Key fob -> A short one']);
  });

  test('and a column or the names of rows that are gone are refused by name', async () => {
    const without = await changed(bytes, (book) => page(book, 'Materials').spliceColumns(5, 1));
    expect(refused(takenIn(starter, without))).toEqual([
      'workbook-layout Materials : The heading “Diameter, mm” is not found in row 2.',
    ]);
    const nameless = await changed(bytes, (book) => {
      const sheet = page(book, 'Materials');
      sheet.spliceColumns(columnOf(sheet, 'sheet:materials'), 1);
      cell(sheet, 3, price).value = 64;
    });
    expect(refused(takenIn(starter, nameless))).toEqual([
      expect.stringContaining('workbook-layout Materials : The hidden column with the names of rows'),
    ]);
  });

  test('a filter and hidden rows hide nothing from takein', async () => {
    const filtered = await changed(bytes, (book) => {
      const sheet = page(book, 'Materials');
      sheet.autoFilter = 'A2:I20';
      sheet.getRow(3).hidden = true;
      cell(sheet, 3, price).value = 64;
    });
    expect(told(takenIn(starter, filtered))).toEqual(['Materials slate cord, Pack price, USD: 61 -> 64']);
  });
});

describe('a formula of ours', () => {
  test('whose references were moved is named as changed, whatever its shape', async () => {
    const moved = await changed(bytes, (book) => {
      const costs = page(book, 'Costs');
      const ranged = cell(costs, 5, 'Cord in the piece, USD');
      expect(ranged.formula).toMatch(/^SUM\(Cuts!\$X\$9:\$X\$13\)$/);
      ranged.value = { formula: 'SUM(Cuts!$X$9:$X$12)', result: 1 };
      const materials = page(book, 'Materials');
      const own = cell(materials, 5, 'Landed cost, USD a pack');
      expect(own.formula).toContain('M5');
      own.value = { formula: (own.formula ?? '').replace('M5', 'M6'), result: 1 };
    });
    const report = takenIn(starter, moved);
    expect(report).toMatchObject({ problems: [], changes: [] });
    expect(
      report.remarks.map(({ where, message }) => `${where.sheet}!${where.cell}: ${message}`).sort(),
    ).toEqual([
      'Costs!D5: The formula of Cord in the piece, USD was changed; the book keeps its own.',
      expect.stringMatching(/^Materials![A-Z]+5: The formula of Landed cost, USD a pack was changed; /),
    ]);
  });
});

describe('what is no workbook of a book', () => {
  const text = (words: string): Uint8Array => new TextEncoder().encode(words);
  test.each([
    ['a table', text('material,name\nslate cord,Cord\n'), 'workbook-unreadable  : The file is no workbook.'],
    [
      'a picture',
      new Uint8Array([0x89, 0x50, 0x4e, 0x47, 13, 10, 26, 10]),
      'workbook-unreadable  : The file is no workbook.',
    ],
    ['nothing', new Uint8Array(), 'workbook-unreadable  : The file is empty.'],
    [
      'half of one',
      bytes.slice(0, bytes.length / 2),
      'workbook-unreadable  : The file is not whole: its end is missing, or it is no workbook.',
    ],
  ])('%s is refused for what it is', (_, file, message) => {
    expect(refused(takenIn(starter, file))).toEqual([message]);
  });

  test('a month’s workbook and a price list are named', async () => {
    for (const [title, words] of [
      ['Sluice Lane Cordworks: month of October 2026', 'This is the month workbook of October 2026, and not'],
      ['Price list: Sluice Lane Cordworks', 'This is a price list for customers, and not'],
    ]) {
      const other = await changed(bytes, (book) => {
        book.removeWorksheet('Origin');
        book.title = title ?? '';
      });
      expect(refused(takenIn(starter, other))).toEqual([
        expect.stringContaining(`workbook-foreign  : ${words}`),
      ]);
    }
  });
});
