import { describe, expect, test } from 'vitest';
import { demoBook, demoBooks } from '../support/books.ts';
import {
  cell,
  changed,
  page,
  refused,
  rowOf,
  spareRow,
  takenIn,
  told,
  workbookOf,
} from '../support/takein.ts';

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

  test('brings nothing as .ods either', async () => {
    const report = takenIn(demoBook(name), await workbookOf(demoBook(name), 'ods'));
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
          '$1moss cord$2,4 1/4 in,',
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

describe('what a maker may do to a workbook', () => {
  test('rows sorted with all their cells change nothing; sorted without the hidden column neither', async () => {
    for (const hidden of [true, false]) {
      const bytes = await changed(bytesOf('starter'), (book) => {
        const sheet = page(book, 'Materials');
        const last = sheet.columnCount - (hidden ? 0 : 1);
        const rows = [3, 4, 5, 6].map((row) =>
          Array.from({ length: last }, (_, at) => sheet.getCell(row, at + 1).value),
        );
        rows.reverse().forEach((values, at) => {
          values.forEach((value, column) => {
            sheet.getCell(at + 3, column + 1).value = value;
          });
        });
      });
      expect(takenIn(starter, bytes)).toMatchObject({ problems: [], changes: [], conflicts: [] });
    }
  });

  test('a sheet under another title, with a column put in before, is still found', async () => {
    const bytes = await changed(bytesOf('starter'), (book) => {
      const sheet = page(book, 'Materials');
      cell(sheet, rowOf(sheet, 'slate cord'), 'Pack price, USD').value = 64;
      sheet.spliceColumns(3, 0, ['', 'My notes', 'dear']);
      sheet.name = 'What I buy';
    });
    const report = takenIn(starter, bytes);
    expect(report.problems).toEqual([]);
    expect(told(report)).toEqual(['What I buy slate cord, Pack price, USD: 61 -> 64']);
    expect(report.remarks.map(({ message }) => message)).toContainEqual(
      expect.stringContaining('The column “My notes” is not one of the sheet’s'),
    );
  });

  test('sheets of their own, changed formulas and overwritten ones are named and left alone', async () => {
    const bytes = await changed(bytesOf('starter'), (book) => {
      book.addWorksheet('Notes').getCell('A1').value = 'call the mill';
      const costs = page(book, 'Costs');
      cell(costs, 3, 'Unit cost, USD').value = { formula: 'F3*2', result: 1 };
      const materials = page(book, 'Materials');
      cell(materials, 4, 'Landed cost, USD a pack').value = 70;
    });
    const report = takenIn(starter, bytes);
    expect(report).toMatchObject({ problems: [], changes: [], conflicts: [] });
    expect(report.remarks.map(({ where, message }) => `${where.sheet}: ${message}`).sort()).toEqual([
      'Costs: The formula of Unit cost, USD was changed; the book keeps its own.',
      'Materials: The formula of Landed cost, USD a pack was written over; the book keeps its own.',
      'Notes: The sheet Notes is not one of Sennit’s; it is left alone.',
    ]);
  });

  test('a formula in an input brings its value; one that was not worked out is refused', async () => {
    const withFormula = (value: { formula: string; result?: number }) =>
      changed(bytesOf('starter'), (book) => {
        const sheet = page(book, 'Materials');
        cell(sheet, rowOf(sheet, 'slate cord'), 'Pack price, USD').value = value;
      });
    const report = takenIn(starter, await withFormula({ formula: '61*1.1', result: 67.1 }));
    expect(told(report)).toEqual(['Materials slate cord, Pack price, USD: 61 -> 67.1']);
    expect(report.remarks.map(({ found }) => found)).toEqual(['61*1.1']);
    expect(refused(takenIn(starter, await withFormula({ formula: '61*1.1' })))).toEqual([
      expect.stringContaining(
        'workbook-cell Materials I3: The cell holds a formula whose result was not saved',
      ),
    ]);
  });

  test('text for a figure is read as the book reads it, and a figure that is none is named with its cell', async () => {
    const typed = (name: string, value: string | Date | boolean) =>
      changed(bytesOf(name), (book) => {
        const wage = page(book, 'Rates').getCell(`B${rowOf(page(book, 'Rates'), 'Wage')}`);
        wage.value = value;
        if (value instanceof Date) wage.style = { ...wage.style, numFmt: 'yyyy-mm-dd' };
      });
    expect(told(takenIn(demoBook('metric'), await typed('metric', '20,75')))).toEqual([
      'Rates , Wage: 19,5 -> 20,75',
    ]);
    expect(told(takenIn(starter, await typed('starter', 'USD 23.50')))).toEqual(['Rates , Wage: 22 -> 23.5']);
    for (const wrong of ['23,50', 'plenty', true, new Date('2026-05-01')])
      expect(refused(takenIn(starter, await typed('starter', wrong)))).toEqual([
        expect.stringMatching(/^workbook-cell Rates B\d+: /),
      ]);
  });

  test('merged cells, renamed and doubled rows are refused by name', async () => {
    const merged = await changed(bytesOf('starter'), (book) => page(book, 'Materials').mergeCells('I3:I5'));
    expect(refused(takenIn(starter, merged))).toContainEqual(
      'workbook-layout Materials I3:I5: These cells are merged into one, so it is not known what each of them says.',
    );
    const renamed = await changed(bytesOf('starter'), (book) => {
      page(book, 'Materials').getCell('A3').value = 'slate line';
    });
    expect(refused(takenIn(starter, renamed))).toEqual([
      expect.stringContaining(
        'workbook-layout Materials A3: The row “slate cord” is called “slate line” now',
      ),
    ]);
    const doubled = await changed(bytesOf('starter'), (book) =>
      page(book, 'Materials').duplicateRow(3, 1, true),
    );
    expect(refused(takenIn(starter, doubled))).toContainEqual(
      expect.stringContaining('workbook-layout Materials A4: The row “slate cord” is there 2 times'),
    );
  });

  test('a workbook without its hidden sheet, of a later format or of another book is refused', async () => {
    const bare = await changed(bytesOf('starter'), (book) => book.removeWorksheet('Origin'));
    expect(refused(takenIn(starter, bare))).toEqual([expect.stringContaining('workbook-foreign')]);
    const damaged = await changed(bytesOf('starter'), (book) => {
      page(book, 'Origin').getCell('C6').value = '[99]';
    });
    expect(refused(takenIn(starter, damaged))).toEqual([
      expect.stringContaining('was changed, so it cannot be relied on'),
    ]);
    expect(refused(takenIn(demoBook('metric'), bytesOf('starter')))).toEqual([
      expect.stringContaining('currency'),
    ]);
    const other = new Map([
      ...starter,
      ['book.yaml', (starter.get('book.yaml') ?? '').replace('length_unit: in', 'length_unit: cm')],
    ]);
    expect(refused(takenIn(other, bytesOf('starter')))).toEqual([
      expect.stringContaining('length_unit in; now it has cm'),
    ]);
  });

  test('a book that would have errors is refused, told of the cell that makes them', async () => {
    const bytes = await changed(bytesOf('starter'), (book) => {
      const sheet = page(book, 'Products');
      cell(sheet, rowOf(sheet, 'fob short'), 'Over cord').value = 'golden cord';
    });
    expect(refused(takenIn(starter, bytes))).toEqual([
      expect.stringMatching(/^reference-unknown Products [A-Z]+\d+: “golden cord”/),
    ]);
  });
});

describe('sizes of a run', () => {
  const sizes = ['wrist small', 'wrist medium', 'wrist large'];
  const eased = (names: readonly string[], value: number) =>
    changed(bytesOf('starter'), (book) => {
      const sheet = page(book, 'Products');
      for (const name of names) cell(sheet, rowOf(sheet, name), 'Ease, in').value = value;
    });

  test('changed alike are one change of their row', async () => {
    const report = takenIn(starter, await eased(sizes, 0.875));
    expect(report.problems).toEqual([]);
    expect(told(report)).toHaveLength(1);
    const products = report.files.get('products.csv') ?? '';
    expect(
      products.split('\n').filter((line, at) => line !== (starter.get('products.csv') ?? '').split('\n')[at]),
    ).toHaveLength(1);
  });

  test('changed in one alone are refused, with the row that holds them all', async () => {
    expect(refused(takenIn(starter, await eased(['wrist medium'], 0.875)))).toEqual([
      expect.stringMatching(
        /Ease, in was changed for “wrist medium”, and products\.csv, row \d+, holds it once for all 3 sizes/,
      ),
    ]);
  });

  test('get a price of their own by hand', async () => {
    const bytes = await changed(bytesOf('starter'), (book) => {
      const sheet = page(book, 'Prices');
      cell(sheet, rowOf(sheet, 'wrist medium', 'stall'), 'Asking price set by hand, USD').value = 17.5;
    });
    const report = takenIn(starter, bytes);
    expect(report.problems).toEqual([]);
    expect(report.files.get('set_prices.csv')).toBe(
      `${starter.get('set_prices.csv')}wrist medium,stall,17.50\n`,
    );
  });
});

describe('a book that was changed since', () => {
  const since = (file: string, from: string, to: string): Map<string, string> => {
    const text = starter.get(file) ?? '';
    expect(text).toContain(from);
    return new Map([...starter, [file, text.replace(from, to)]]);
  };
  const dearer = changed(bytesOf('starter'), (book) => {
    const sheet = page(book, 'Materials');
    cell(sheet, rowOf(sheet, 'slate cord'), 'Pack price, USD').value = 64;
  });

  test('keeps what only it changed, and takes what only the workbook changed', async () => {
    const book = since('materials.csv', 'rust,4 mm,"1,000 ft",61.00', 'rust,4 mm,"1,000 ft",59.00');
    const report = takenIn(book, await dearer);
    expect(report).toMatchObject({ problems: [], conflicts: [], changedSince: ['materials.csv'] });
    expect(report.files.get('materials.csv')).toBe(
      (book.get('materials.csv') ?? '').replace('slate,4 mm,"1,000 ft",61.00', 'slate,4 mm,"1,000 ft",64.00'),
    );
  });

  test('is left as it is where both made the same change', async () => {
    const book = since('materials.csv', 'slate,4 mm,"1,000 ft",61.00', 'slate,4 mm,"1,000 ft",64');
    expect(takenIn(book, await dearer)).toMatchObject({ problems: [], conflicts: [], changes: [] });
  });

  test('names what both changed, and one side stands when it is said which', async () => {
    const book = since('materials.csv', 'slate,4 mm,"1,000 ft",61.00', 'slate,4 mm,"1,000 ft",58.00');
    const open = takenIn(book, await dearer);
    expect(open.conflicts).toMatchObject([{ row: 'slate cord', written: '61', workbook: '64', book: '58' }]);
    expect(open.files.size).toBe(0);
    expect(takenIn(book, await dearer, 'book').files.size).toBe(0);
    expect(takenIn(book, await dearer, 'workbook').files.get('materials.csv')).toContain('"1,000 ft",64.00');
  });

  test('has a conflict where it lost or changed a row that the workbook changed or lost', async () => {
    const lost = since('overheads.csv', 'insurance,48,stock and public liability\n', '');
    const raised = await changed(bytesOf('starter'), (book) => {
      const sheet = page(book, 'Overheads');
      sheet.getCell(`B${rowOf(sheet, 'insurance')}`).value = 52;
    });
    expect(takenIn(lost, raised).conflicts).toMatchObject([
      { row: 'insurance', workbook: '52', book: 'removed' },
    ]);
    expect(takenIn(lost, raised, 'workbook').problems).toMatchObject([{ code: 'workbook-conflict' }]);
    const higher = since('overheads.csv', 'insurance,48', 'insurance,55');
    const gone = await changed(bytesOf('starter'), (book) => {
      const sheet = page(book, 'Overheads');
      sheet.spliceRows(rowOf(sheet, 'insurance'), 1);
    });
    expect(takenIn(higher, gone).conflicts).toMatchObject([
      { row: 'insurance', workbook: 'removed', book: '55' },
    ]);
    expect(takenIn(higher, gone, 'workbook').files.get('overheads.csv')).not.toContain('insurance');
  });

  test('keeps a weave that comes with Sennit until it is changed, and then has a row of its own', async () => {
    const bytes = await changed(bytesOf('metric'), (book) => {
      const sheet = page(book, 'End kinds');
      cell(sheet, rowOf(sheet, 'crown'), 'Cord in the knot, cord diameters').value = 17.5;
    });
    const report = takenIn(demoBook('metric'), bytes);
    expect(report.problems).toEqual([]);
    expect(report.files.get('end_kinds.csv')).toMatch(/^end;.*\ncrown;.*17,5.*\n$/);
  });
});
