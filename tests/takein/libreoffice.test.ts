import { mkdtempSync } from 'node:fs';
import { readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { WorkbookFormat } from '../../engine/export/workbook.ts';
import { cellAddress } from '../../engine/sheets/address.ts';
import type { CellValue, Plan } from '../../engine/sheets/plan.ts';
import { switchBook } from '../../engine/switchBook.ts';
import { readSavedWorkbook } from '../../engine/takein/read/readSavedWorkbook.ts';
import { type BookText, demoBook, demoBooks, pricedBook, sourceOf } from '../support/books.ts';
import { editInLibreOffice, findLibreOffice, put, typed } from '../support/libreoffice.ts';
import { takenIn, told, workbookOf } from '../support/takein.ts';
import { randomEdits } from './randomEdits.ts';

/** Every input of a book by sheet, keys and column; numbers as far as every program keeps them. */
function inputsOf(plan: Plan): Map<string, CellValue> {
  return new Map(
    plan.sheets.flatMap((sheet) =>
      sheet.columns.flatMap((column) =>
        (column.inputs ?? []).map((value, row): [string, CellValue] => [
          `${nameOf(plan, sheet.id, row)}.${column.id}`,
          typeof value === 'number' ? Number(value.toPrecision(13)) : value,
        ]),
      ),
    ),
  );
}

/** A row by its keys; rows that share them by where they stand. */
function nameOf(plan: Plan, id: string, row: number): string {
  const sheet = plan.sheets.find((each) => each.id === id);
  const keys = (sheet?.key ?? []).map((key) => sheet?.columns.find((each) => each.id === key)?.inputs?.[row]);
  return sheet?.repeats === true ? `${id}[${row}]` : `${id}[${keys.join(', ')}]`;
}

function withFiles(book: BookText, files: BookText): BookText {
  return new Map([...book, ...files]);
}

describe.skipIf(findLibreOffice() === undefined)('through LibreOffice', () => {
  let folder = '';
  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), 'sennit-takein-'));
  });
  afterAll(() => rm(folder, { recursive: true, force: true }));

  /** The workbook of a book, edited and saved as both formats. */
  async function edited(
    name: string,
    statements: readonly string[],
    locale?: string,
    from: WorkbookFormat = 'xlsx',
  ): Promise<Uint8Array[]> {
    const file = join(folder, `${name}-${statements.length}.${from}`);
    await writeFile(file, await workbookOf(demoBook(name), from));
    const saved = ['ods', 'xlsx'].map((format) =>
      join(folder, `${name}-${statements.length}-saved.${format}`),
    );
    await editInLibreOffice(file, statements, saved, locale);
    return Promise.all(saved.map((each) => readFile(each)));
  }

  test.each(demoBooks)('an untouched workbook of the book %s brings nothing', async (name) => {
    for (const bytes of [...(await edited(name, [])), ...(await edited(name, [], undefined, 'ods'))]) {
      const report = takenIn(demoBook(name), bytes);
      expect(report).toMatchObject({
        problems: [],
        remarks: [],
        conflicts: [],
        changes: [],
        changedSince: [],
      });
    }
  });

  test.each(demoBooks)('200 edits of the book %s come home exactly', async (name) => {
    const book = demoBook(name);
    const { plan } = pricedBook(book);
    // In the workbook, columns of the scenario switch stand between the inputs.
    const laid = switchBook(sourceOf(book)).plan ?? plan;
    const edits = randomEdits(laid, 200, 20261126);
    const statements = edits.map(({ sheet, column, row, value }) => {
      const at = cellAddress(sheet, sheet.columns.indexOf(column), row);
      return put(sheet.title, at.row, at.column + 1, value);
    });
    expect(edits).toHaveLength(200);
    const expected = new Map(inputsOf(plan));
    for (const { sheet, column, row, value } of edits)
      expected.set(
        `${nameOf(plan, sheet.id, row)}.${column.id}`,
        typeof value === 'number' ? Number(value.toPrecision(13)) : value,
      );
    for (const bytes of await edited(name, statements)) {
      const report = takenIn(book, bytes);
      expect(report.problems).toEqual([]);
      expect(report.remarks).toEqual([]);
      const after = inputsOf(pricedBook(withFiles(book, report.files)).plan);
      const moved = [...expected].filter(([where, value]) => after.get(where) !== value);
      expect(moved.map(([where, value]) => [where, value, after.get(where)])).toEqual([]);
      expect(after.size).toBe(expected.size);
    }
  });

  test('a stranger changes wage, margin, a cord price and a cord there, and sees the price list of the changed book', async () => {
    const book = demoBook('starter');
    const plan = switchBook(sourceOf(book)).plan;
    const at = (id: string, column: string, key?: string): [string, number, number] => {
      const sheet = plan?.sheets.find((each) => each.id === id);
      if (sheet === undefined) throw new Error(`no sheet ${id}`);
      const keys = sheet.columns.find((each) => each.id === sheet.key[0])?.inputs ?? [];
      const place = sheet.columns.findIndex((each) => each.id === column);
      const cell = cellAddress(sheet, place, key === undefined ? 0 : keys.indexOf(key));
      return [sheet.title, cell.row, cell.column + 1];
    };
    // Typed as in a program that writes decimals with a comma.
    const statements = [
      typed(...at('rates', 'wage_per_hour'), '25,35'),
      typed(...at('rates', 'wanted_margin_percent'), '31,5 %'),
      typed(...at('materials', 'pack_price', 'slate cord'), '83,45'),
      typed(...at('products', 'over_cord', 'fob short'), 'river cord'),
    ];
    for (const bytes of await edited('starter', statements, 'de-DE')) {
      const report = takenIn(book, bytes);
      expect(report.problems).toEqual([]);
      expect(told(report)).toEqual([
        'Rates , Wage: 22 -> 25.35',
        'Rates , Wanted margin on the net price: 24 % -> 31.5 %',
        'Materials slate cord, Pack price, USD: 61 -> 83.45',
        'Products fob short, Over cord: slate cord -> river cord',
      ]);
      const after = pricedBook(withFiles(book, report.files));
      const list = after.plan.sheets.find(({ id }) => id === 'price_list');
      const saved = readSavedWorkbook(bytes).sheets.find(({ title }) => title === list?.title);
      const before = pricedBook(book);
      let moved = 0;
      list?.columns.forEach((column, across) => {
        for (let row = 0; row < list.rowCount; row += 1) {
          const ours = after.values.get('price_list', column.id, row);
          const theirs = saved?.rows.get(row + 3)?.get(across + 1)?.value ?? null;
          if (typeof ours === 'number') expect(theirs).toBeCloseTo(ours, 9);
          else expect(theirs).toEqual(ours);
          if (ours !== before.values.get('price_list', column.id, row)) moved += 1;
        }
      });
      expect(moved).toBeGreaterThan(20);
    }
  });

  test('rows sorted, removed and added there, and a column put in, come home as what they are', async () => {
    const book = demoBook('starter');
    // In the workbook, columns of the scenario switch stand between the inputs.
    const plan = switchBook(sourceOf(book)).plan ?? pricedBook(book).plan;
    const materials = plan.sheets.find(({ id }) => id === 'materials');
    const overheads = plan.sheets.find(({ id }) => id === 'overheads');
    const rows = materials?.rowCount ?? 0;
    const row = (key: string): number => 3 + (overheads?.columns[0]?.inputs ?? []).indexOf(key);
    const remark = 1 + (overheads?.columns.findIndex(({ id }) => id === 'remark') ?? 0);
    const spare = 3 + (overheads?.rowCount ?? 0) + 3;
    const statements = [
      'sheet = doc.Sheets.getByName("Materials")',
      'Dim field(0) As New com.sun.star.table.TableSortField',
      'field(0).Field = 0 : field(0).IsAscending = False',
      'Dim sorting(0) As New com.sun.star.beans.PropertyValue',
      'sorting(0).Name = "SortFields" : sorting(0).Value = field()',
      `sheet.getCellRangeByPosition(0, 2, 40, ${rows + 1}).sort(sorting())`,
      'sheet.Columns.insertByIndex(2, 1)',
      'sheet.getCellByPosition(2, 1).String = "Mine"',
      // Sorted downwards, the last name stands first.
      'sheet.getCellByPosition(1, 2).String = "the last of all"',
      put('Overheads', row('electricity and heat'), remark, 'meter in the yard'),
      put('Overheads', spare, 1, 'bench lamp'),
      put('Overheads', spare, 2, 4.5),
      `doc.Sheets.getByName("Overheads").Rows.removeByIndex(${row('insurance') - 1}, 1)`,
      'doc.Sheets.getByName("Overheads").Name = "Every month"',
    ];
    const names = (materials?.columns[0]?.inputs ?? []).map(String);
    const last =
      [...names].sort((one, other) => (one.toLowerCase() < other.toLowerCase() ? -1 : 1)).at(-1) ?? '';
    const before = materials?.columns[1]?.inputs?.[names.indexOf(last)];
    for (const bytes of await edited('starter', statements)) {
      const report = takenIn(book, bytes);
      expect(report.problems).toEqual([]);
      expect(told(report).sort()).toEqual(
        [
          `Materials ${last}, Name: ${before} -> the last of all`,
          'Every month electricity and heat, Remark:  -> meter in the yard',
          'Every month bench lamp, Overhead: new -> bench lamp',
          'Every month bench lamp, Each month, USD: new -> 4.5',
          'Every month insurance: removed',
        ].sort(),
      );
      expect(report.remarks.map(({ message }) => message)).toEqual([
        'The column “Mine” is not one of the sheet’s; it is left alone.',
      ]);
      expect(report.files.get('overheads.csv')).toBe(
        `${(book.get('overheads.csv') ?? '')
          .replace('electricity and heat,62,', 'electricity and heat,62,meter in the yard')
          .replace(/^insurance.*\n/m, '')}bench lamp,4.50,\n`,
      );
    }
  });

  test('a copied sheet and a moved reference are named there as well', async () => {
    const book = demoBook('starter');
    const statements = [
      'doc.Sheets.copyByName("Materials", "Materials_2", 1)',
      'doc.Sheets.getByName("Costs").getCellRangeByName("D5").Formula = "=SUM($Cuts.$X$9:$X$12)"',
      put('Overheads', 3, 2, 99),
    ];
    for (const bytes of await edited('starter', statements)) {
      const report = takenIn(book, bytes);
      expect(report.problems).toEqual([]);
      expect(report.changes).toMatchObject([{ sheet: 'Overheads', cell: 'B3', after: '99' }]);
      expect(report.remarks.map(({ message }) => message)).toEqual([
        'The sheet Materials_2 is a copy of Materials; the copy is left alone.',
        'The formula of Cord in the piece, USD was changed; the book keeps its own.',
      ]);
    }
  });

  test('a material that was removed there is told by who uses it, and by nothing else', async () => {
    const book = demoBook('starter');
    const names = switchBook(sourceOf(book)).plan?.sheets.find(({ id }) => id === 'materials')?.columns[0]
      ?.inputs;
    const line = 2 + (names ?? []).indexOf('belt buckle');
    for (const bytes of await edited('starter', [
      `doc.Sheets.getByName("Materials").Rows.removeByIndex(${line}, 1)`,
    ])) {
      const { problems, remarks } = takenIn(book, bytes);
      expect(problems.map(({ code, message }) => `${code}: ${message}`)).toEqual([
        expect.stringMatching(
          /^reference-unknown: “belt buckle” is still used in .*Parts!B\d+ \(belt narrow\)/,
        ),
      ]);
      // Formulas that looked the row up are told together, as what follows from it.
      expect(remarks.map(({ message }) => message)).toEqual([
        expect.stringMatching(/^\d+ formulas show #REF!, as rows that they used were removed/),
      ]);
    }
  });
});
