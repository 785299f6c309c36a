import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { disagreements } from '../../engine/calc/agreement.ts';
import { evaluate } from '../../engine/calc/evaluate.ts';
import { workbook } from '../../engine/export/workbook.ts';
import { switchBook } from '../../engine/switchBook.ts';
import { whatIfBook } from '../../engine/whatIfBook.ts';
import { type BookText, demoBook, demoBooks, sourceOf } from '../support/books.ts';
import { findLibreOffice, recalculatedCells } from '../support/libreoffice.ts';
import { differences, planCells, readable, wrongValues } from '../support/planCells.ts';

const about = { date: '2026-03-02', version: '0.0.0' };

/** Every shape of change: shares, amounts, points, figures and words, on filled and on blank cells. */
const everyShape = [
  'materials.pack_price +7 %',
  'materials[sold_by=piece].freight +0.10',
  'tax +1 points',
  'rates.reading_error = 0.1 in',
  'products.finished_length +2 %',
  'products[fob long].under_cord = moss cord',
  'products[fob short].core_strands = 3',
  'products[fob short].thickness_set = 9 mm',
  'materials[webbing].diameter = 2 mm',
  'channels[wholesale].prices_include_tax = yes',
  'fees.fixed_per_order +0.05',
  'work.minutes_per_piece +10 %',
  'prices[fob stout, online].asking_set = 15.45',
  'weaves[bar].measured_take_up = 5.2',
];

function bookOf(name: string): { readonly book: BookText; readonly scenarios: readonly string[] } {
  const book = demoBook(name);
  const listed = [
    ...new Set(
      (book.get('scenarios.csv') ?? '')
        .trim()
        .split('\n')
        .slice(1)
        .map((line) => line.split(/[,;]/)[0] ?? ''),
    ),
  ];
  if (name !== 'starter') return { book, scenarios: listed };
  const lines = everyShape.map((change) => `every shape,"${change}",,`).join('\n');
  const files = new Map(book).set('scenarios.csv', `${(book.get('scenarios.csv') ?? '').trim()}\n${lines}\n`);
  return { book: files, scenarios: [...listed, 'every shape'] };
}

const cases = demoBooks.flatMap((name) => {
  const { book, scenarios } = bookOf(name);
  return ['base', ...scenarios].map((scenario) => [name, scenario, book] as const);
});

describe.skipIf(findLibreOffice() === undefined)('the sheet What-if in LibreOffice', () => {
  let folder = '';
  beforeAll(async () => {
    folder = await mkdtemp(join(tmpdir(), 'sennit-what-if-'));
  });
  afterAll(() => rm(folder, { recursive: true, force: true }));

  test.each(cases)(
    'book %s, scenario “%s”: every cell as both engines have it',
    async (name, scenario, book) => {
      for (const [askingPrices, mode] of [
        ['stay as they are', 'held'],
        ['keep the margins', 'kept'],
      ] as const) {
        const { plan, values } = switchBook(sourceOf(book), { scenario, on: '', askingPrices });
        if (plan === undefined || values === undefined) throw new Error('not calculated');
        const reference = evaluate(plan);
        expect(
          disagreements(plan, reference, values).map(
            ({ sheet, column, row }) => `${sheet.id}.${column.id} ${row}`,
          ),
        ).toEqual([]);
        const file = join(folder, `${name}-${scenario}-${mode}.xlsx`);
        await writeFile(file, await workbook(plan, wrongValues(values), about));
        expect(readable(differences(plan, values, await recalculatedCells(file)))).toBe('');
        expect(planCells(plan).some(({ sheet }) => sheet.id === 'before_after')).toBe(true);
        if (scenario === 'base') break;
        const { report } = whatIfBook(sourceOf(book), { scenarios: [scenario], changes: [], on: '' });
        const prices = report?.scenarios[0]?.prices ?? [];
        expect(prices.length).toBe(plan.sheets.find(({ id }) => id === 'prices')?.rowCount);
        prices.forEach((price, row) => {
          expect(values.number('prices', 'asking', row)).toBeCloseTo(price[mode]?.asking ?? 0, 9);
          expect(values.number('prices', 'margin', row)).toBeCloseTo(price[mode]?.margin ?? 0, 9);
        });
      }
    },
  );
});
