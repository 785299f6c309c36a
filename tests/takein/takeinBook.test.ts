import { describe, expect, test } from 'vitest';
import { demoBook, demoBooks } from '../support/books.ts';
import { cell, changed, page, rowOf, spareRow, takenIn, told, workbookOf } from '../support/takein.ts';

const starter = demoBook('starter');
const written = new Map(
  await Promise.all(demoBooks.map(async (name) => [name, await workbookOf(demoBook(name))] as const)),
);
const bytesOf = (name: string): Uint8Array => written.get(name) ?? new Uint8Array();

describe.each(demoBooks)('an untouched workbook of the book %s', (name) => {
  test('brings nothing, and has nothing to tell', () => {
    const report = takenIn(demoBook(name), bytesOf(name));
    expect(report).toMatchObject({ problems: [], remarks: [], conflicts: [], changes: [], changedSince: [] });
    expect(report.files.size).toBe(0);
  });
});

describe('a change of an input', () => {
  test('comes home in the notation of the book, and nothing else of the files moves', async () => {
    const bytes = await changed(bytesOf('starter'), (book) => {
      const rates = page(book, 'Rates');
      rates.getCell(`B${rowOf(rates, 'Wage')}`).value = 23.5;
      rates.getCell(`B${rowOf(rates, 'Wanted margin on the net price')}`).value = 0.275;
      const materials = page(book, 'Materials');
      cell(materials, rowOf(materials, 'slate cord'), 'Pack price, USD').value = 64;
      cell(materials, rowOf(materials, 'slate cord'), 'Pack holds, ft or pieces').value = 1250;
      const products = page(book, 'Products');
      cell(products, rowOf(products, 'fob short'), 'Over cord').value = 'moss cord';
      cell(products, rowOf(products, 'fob short'), 'Finished length set by hand, in').value = 4.25;
    });
    const report = takenIn(starter, bytes);
    expect(report.problems).toEqual([]);
    expect(told(report)).toEqual([
      'Rates , Wage: 22 -> 23.5',
      'Rates , Wanted margin on the net price: 24 % -> 27.5 %',
      'Materials slate cord, Pack holds, ft or pieces: 1000 -> 1250',
      'Materials slate cord, Pack price, USD: 61 -> 64',
      'Products fob short, Over cord: slate cord -> moss cord',
      'Products fob short, Finished length set by hand, in: 4 -> 4.25',
    ]);
    const expected = new Map([
      [
        'book.yaml',
        (starter.get('book.yaml') ?? '')
          .replace('wage_per_hour: 22.00', 'wage_per_hour: 23.50')
          .replace('wanted_margin_percent: 24', 'wanted_margin_percent: 27.5'),
      ],
      [
        'materials.csv',
        (starter.get('materials.csv') ?? '').replace(
          'slate,4 mm,"1,000 ft",61.00',
          'slate,4 mm,"1,250 ft",64.00',
        ),
      ],
      [
        'products.csv',
        (starter.get('products.csv') ?? '').replace(
          /^(fob short,.*?)slate cord(.*?),4 in,/m,
          '$1moss cord$2,4.25 in,',
        ),
      ],
    ]);
    expect(Object.fromEntries(report.files)).toEqual(Object.fromEntries(expected));
  });
});

describe('rows', () => {
  test('that were added in the empty lines become rows of the book, written as their neighbours are', async () => {
    const bytes = await changed(bytesOf('metric'), (book) => {
      const materials = page(book, 'Materials');
      const row = spareRow(materials, 2);
      cell(materials, row, 'Material').value = 'dune line';
      cell(materials, row, 'Name').value = 'Braided line 4 mm; pale';
      cell(materials, row, 'Sold by').value = 'length';
      cell(materials, row, 'Diameter, mm').value = 4.5;
      cell(materials, row, 'Pack holds, m or pieces').value = 250;
      cell(materials, row, 'Pack price, EUR').value = 61.5;
      cell(materials, row, 'Waste').value = 0.045;
      const overheads = page(book, 'Overheads');
      cell(overheads, spareRow(overheads), 'Overhead').value = 'bench lamp';
      cell(overheads, spareRow(overheads), 'Each month, EUR').value = 3;
    });
    const report = takenIn(demoBook('metric'), bytes);
    expect(report.problems).toEqual([]);
    const added = (file: string): string | undefined =>
      report.files.get(file)?.slice((demoBook('metric').get(file) ?? '').length);
    expect(added('materials.csv')).toBe(
      'dune line;"Braided line 4 mm; pale";length;;4,5 mm;250 m;61,50;;;4,5;;\n',
    );
    expect(added('overheads.csv')).toBe('bench lamp;3;\n');
  });

  test('that were removed go from the book, and only they', async () => {
    const bytes = await changed(bytesOf('starter'), (book) => {
      const overheads = page(book, 'Overheads');
      overheads.spliceRows(rowOf(overheads, 'insurance'), 1);
    });
    const report = takenIn(starter, bytes);
    expect(report.problems).toEqual([]);
    expect(told(report)).toEqual(['Overheads insurance: removed']);
    expect(report.files.get('overheads.csv')).toBe(
      (starter.get('overheads.csv') ?? '').replace(/^insurance.*\n/m, ''),
    );
  });
});
