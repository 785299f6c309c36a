import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { workbook } from '../../engine/export/workbook.ts';
import { PlanIndex } from '../../engine/sheets/planIndex.ts';
import { type BookText, demoBook, pricedBook } from '../support/books.ts';
import { setCells, setFigure } from '../support/editBook.ts';
import { findLibreOffice, recalculatedCells } from '../support/libreoffice.ts';
import { differences, readable, wrongValues } from '../support/planCells.ts';
import { writtenBook } from '../support/xlsxParts.ts';

const about = { date: '2026-03-02', version: '0.0.0' };

/** Text that a spreadsheet program would like to take for something else. */
const awkward: readonly string[] = [
  '=1+1',
  '+1',
  '-1',
  '@x',
  '=HYPERLINK("x")',
  "'quoted",
  '007',
  '1/2',
  'TRUE',
  '<b>&amp; "so"',
  '_x0041_',
  'näh ☼ 線',
];

function awkwardBook(): BookText {
  const book = demoBook('starter');
  const materials = pricedBook(book).plan.sheets.find(({ id }) => id === 'materials');
  const keys = materials?.columns[0]?.inputs ?? [];
  return awkward.reduce<BookText>(
    (text, name, at) =>
      setCells(text, 'materials.csv', { material: String(keys[at]) }, { name, colour: name }),
    book,
  );
}

/** Recalculated cells of a sheet's column, in the order of its records. */
async function recalculated(bytes: Uint8Array): ReturnType<typeof recalculatedCells> {
  const folder = await mkdtemp(join(tmpdir(), 'sennit-awkward-'));
  try {
    const file = join(folder, 'book.xlsx');
    await writeFile(file, bytes);
    return await recalculatedCells(file);
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}

test('text that looks like a formula is never written as one', async () => {
  const { plan, values } = pricedBook(awkwardBook());
  const { sheets, formats } = writtenBook(await workbook(plan, values, about));
  const { columns } = new PlanIndex(plan).sheet('materials');
  const name = String.fromCharCode(65 + (columns.get('name')?.at ?? 0));
  awkward.forEach((_, at) => {
    const cell = sheets.get('Materials')?.cells.get(`${name}${3 + at}`);
    expect(cell?.formula).toBeUndefined();
    // Text that stands in the cell itself (ECMA-376 part 1, 18.18.11).
    expect(cell?.type).toBe('inlineStr');
    expect(formats[cell?.style ?? 0]).toBe('@');
  });
});

test.skipIf(findLibreOffice() === undefined)('LibreOffice reads such text as the text it is', async () => {
  const { plan, values } = pricedBook(awkwardBook());
  const sheets = await recalculated(await workbook(plan, wrongValues(values), about));
  expect(readable(differences(plan, values, sheets))).toBe('');
  const at = new PlanIndex(plan).sheet('materials').columns.get('name')?.at ?? 0;
  expect(awkward.map((_, row) => sheets.get('Materials')?.[2 + row]?.[at])).toEqual(awkward);
});

test.skipIf(findLibreOffice() === undefined)(
  'names of sheets and figures that look like cells still work',
  async () => {
    const book = new Map([
      ...setFigure(demoBook('metric'), 'workshop', '"3 Knots & Co <\\"&P\\">"'),
      [
        'sheets/first.yaml',
        `sheet: q1
title: Q1
answers: What a quarter takes.
rows: { each: products }
key: product
columns:
  - { id: product, heading: Product, kind: key }
  - { id: r1c1, heading: One, kind: number, formula: "costs[product].unit_cost * rates.vat20" }
  - { id: inches, heading: Inches, kind: text, formula: 'products[product].size & """"' }
`,
      ],
      [
        'sheets/second.yaml',
        `sheet: whole
title: My 2nd sheet
answers: What all quarters take.
rows: { form: none }
columns:
  - { id: sum, heading: Sum, kind: number, formula: SUM(q1.r1c1) }
  - { id: tax, heading: Tax, kind: number, formula: "1 + rates.whole_tax + rates.true" }
`,
      ],
      [
        'sheets/rates.yaml',
        `extends: rates
columns:
  - { id: vat20, heading: Other tax, kind: number, formula: "1 + whole_tax" }
  - { id: whole_tax, heading: Whole tax, kind: number, formula: "0.2" }
  - { id: "true", heading: A word, kind: number, formula: "3.2" }
`,
      ],
    ]);
    const { plan, values } = pricedBook(book);
    const sheets = await recalculated(await workbook(plan, wrongValues(values), about));
    expect(readable(differences(plan, values, sheets))).toBe('');
    expect(values.number('whole', 'sum', 0)).toBeGreaterThan(0);
  },
);

test.skipIf(findLibreOffice() === undefined)(
  'a book without optional tables is calculated all the same',
  async () => {
    const optional = ['overheads.csv', 'parts.csv', 'fees.csv', 'set_prices.csv', 'sheets/labels.yaml'];
    const book = new Map([...demoBook('metric')].filter(([name]) => !optional.includes(name)));
    const { plan, values } = pricedBook(book);
    const sheets = await recalculated(await workbook(plan, wrongValues(values), about));
    expect(readable(differences(plan, values, sheets))).toBe('');
  },
);

/** Names that some program might take for a number, a formula, a pattern or a property. */
const awkwardKeys = [
  'TRUE',
  '1',
  '01',
  '1e5',
  '=1+1',
  "'abc",
  'A1',
  '007',
  '1/2',
  '-1',
  '@x',
  '#N/A',
  '>5',
  '<>x',
  '=',
  'constructor',
  '__proto__',
  '_x0041_',
  '{currency}',
  '$&',
  'R1C1',
  'léad',
  'lead',
  '😀 x',
  'two  blanks',
];

test.skipIf(findLibreOffice() === undefined)(
  'names that look like something else are only names',
  async () => {
    const row = (...cells: string[]): string =>
      cells.map((cell) => `"${cell.replaceAll('"', '""')}"`).join(',');
    const book = new Map([
      [
        'book.yaml',
        'currency: USD\nwage_per_hour: 20\nbench_hours_per_month: 80\nwanted_margin_percent: 30\n',
      ],
      [
        'materials.csv',
        [
          'material,sold_by,diameter,pack,pack_price',
          ...awkwardKeys.map((key, at) => row(key, 'length', '4 mm', '100 ft', String(5 + at))),
        ].join('\n'),
      ],
      [
        'products.csv',
        [
          'product,weave,over_cord,under_cord,woven_length_set',
          ...awkwardKeys.map((key, at) => row(key, 'bar', key, awkwardKeys.at(at - 1) ?? '', '7 in')),
        ].join('\n'),
      ],
      [
        'parts.csv',
        ['product,material,quantity', ...awkwardKeys.map((key) => row(key, key, '2 ft'))].join('\n'),
      ],
      [
        'work.csv',
        ['for,step,minutes_per_piece', ...awkwardKeys.map((key, at) => row(key, 'tie', String(at + 1)))].join(
          '\n',
        ),
      ],
      [
        'channels.csv',
        `channel\n${awkwardKeys
          .slice(0, 3)
          .map((key) => row(key))
          .join('\n')}\n`,
      ],
    ]);
    const { plan, values } = pricedBook(book);
    expect(values.number('costs', 'minutes', awkwardKeys.length - 1)).toBe(awkwardKeys.length);
    const sheets = await recalculated(await workbook(plan, wrongValues(values), about));
    expect(readable(differences(plan, values, sheets))).toBe('');
  },
);
