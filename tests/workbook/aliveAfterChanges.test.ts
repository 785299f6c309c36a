import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import ExcelJS from 'exceljs';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { workbook } from '../../engine/export/workbook.ts';
import { cellAddress, columnLetters } from '../../engine/sheets/address.ts';
import type { CellValue, Plan } from '../../engine/sheets/plan.ts';
import { PlanIndex } from '../../engine/sheets/planIndex.ts';
import { type BookText, demoBook, demoBooks, pricedBook } from '../support/books.ts';
import { setCells, setFigure } from '../support/editBook.ts';
import { findLibreOffice, recalculatedCells } from '../support/libreoffice.ts';
import { differences, readable, wrongValues } from '../support/planCells.ts';

/** A cell that a maker writes into the workbook. */
interface Write {
  readonly sheet: string;
  readonly column: string;
  readonly row: number;
  readonly value: number | string | null;
}

/** The same change twice: in the book's files, and in the workbook's cells. */
interface Change {
  readonly book: BookText;
  readonly writes: readonly Write[];
}

type Changing = (book: BookText, plan: Plan) => Change;

function inputs(plan: Plan, sheet: string, column: string): readonly CellValue[] {
  return new PlanIndex(plan).column(sheet, column).inputs ?? [];
}

/** A number in the decimal mark of the book. */
function written(value: number, plan: Plan): string {
  return plan.settings.decimal === 'comma' ? String(value).replace('.', ',') : String(value);
}

/** The first product woven as a plain bar, in two colours of its own. */
function someBar(plan: Plan): { product: string; row: number } {
  const weaves = inputs(plan, 'products', 'weave');
  const over = inputs(plan, 'products', 'over_cord');
  const under = inputs(plan, 'products', 'under_cord');
  const row = weaves.findIndex((weave, at) => weave === 'bar' && over[at] !== under[at]);
  return { product: String(inputs(plan, 'products', 'product')[row]), row };
}

const changes: Readonly<Record<string, Changing>> = {
  'the wage': (book, plan) => ({
    book: setFigure(book, 'wage_per_hour', written(27.35, plan)),
    writes: [{ sheet: 'rates', column: 'wage_per_hour', row: 0, value: 27.35 }],
  }),
  'a cord price': (book, plan) => {
    const material = inputs(plan, 'products', 'over_cord')[someBar(plan).row];
    const row = inputs(plan, 'materials', 'material').indexOf(material ?? null);
    return {
      book: setCells(
        book,
        'materials.csv',
        { material: String(material) },
        { pack_price: written(83.45, plan) },
      ),
      writes: [{ sheet: 'materials', column: 'pack_price', row, value: 83.45 }],
    };
  },
  'the wanted margin': (book, plan) => ({
    book: setFigure(book, 'wanted_margin_percent', written(31.5, plan)),
    writes: [{ sheet: 'rates', column: 'wanted_margin_percent', row: 0, value: 0.315 }],
  }),
  'a woven length': (book, plan) => {
    const { product, row } = someBar(plan);
    return {
      book: setCells(book, 'products.csv', { product }, { woven_length_set: written(9.25, plan) }),
      writes: [{ sheet: 'products', column: 'woven_length_set', row, value: 9.25 }],
    };
  },
  'the cord of a product': (book, plan) => {
    const { product, row } = someBar(plan);
    const now = inputs(plan, 'products', 'over_cord')[row];
    const diameters = inputs(plan, 'materials', 'diameter');
    const other = String(
      inputs(plan, 'materials', 'material').find((name, at) => name !== now && diameters[at] === 2) ??
        inputs(plan, 'materials', 'material').find(
          (name, at) => name !== now && typeof diameters[at] === 'number',
        ),
    );
    return {
      book: setCells(book, 'products.csv', { product }, { over_cord: other }),
      writes: [{ sheet: 'products', column: 'over_cord', row, value: other }],
    };
  },
  'an end, its size and its cord': (book, plan) => {
    const [product, where] = ['product', 'where'].map((id) => String(inputs(plan, 'ends', id)[0]));
    return {
      book: setCells(
        book,
        'ends.csv',
        { product: product ?? '', where: where ?? '' },
        { end: 'overhand loop', size: written(13.5, plan), role: 'under', count: '2' },
      ),
      writes: [
        { sheet: 'ends', column: 'end', row: 0, value: 'overhand loop' },
        { sheet: 'ends', column: 'size', row: 0, value: 13.5 },
        { sheet: 'ends', column: 'role', row: 0, value: 'under' },
        { sheet: 'ends', column: 'count', row: 0, value: 2 },
      ],
    };
  },
  'a cord kind, and a weight that is known no more': (book, plan) => {
    const names = inputs(plan, 'materials', 'material');
    const kinds = inputs(plan, 'materials', 'cord_kind');
    const cord = kinds.findIndex((kind) => kind !== null);
    const fitting = inputs(plan, 'materials', 'weight').findIndex(
      (weight, at) =>
        weight !== null &&
        kinds[at] === null &&
        inputs(plan, 'parts', 'material').includes(names[at] ?? null),
    );
    const change = (row: number, column: string, text: string, value: string | null) => ({
      file: (given: BookText) =>
        setCells(given, 'materials.csv', { material: String(names[row]) }, { [column]: text }),
      write: { sheet: 'materials', column, row, value },
    });
    const made = [change(cord, 'cord_kind', 'type IV', 'type IV'), change(fitting, 'weight', '', null)];
    return {
      book: made.reduce((given, each) => each.file(given), book),
      writes: made.map((each) => each.write),
    };
  },
  'the measure of a size': (book, plan) => {
    const run = String(inputs(plan, 'sizes', 'run')[0]);
    const size = String(inputs(plan, 'sizes', 'size')[0]);
    // A size that is called by its measure keeps its name in the workbook.
    const named = (book.get('sizes.csv') ?? '').includes('size');
    const measure = written(6.85, plan);
    return {
      book: setCells(
        book,
        'sizes.csv',
        named ? { run, size } : { run, measure: size },
        named ? { measure } : { size, measure },
      ),
      writes: [{ sheet: 'sizes', column: 'measure', row: 0, value: 6.85 }],
    };
  },
  'an asking price by hand': (book, plan) => {
    const { product } = someBar(plan);
    const channel = String(inputs(plan, 'channels', 'channel').at(-1));
    const products = inputs(plan, 'prices', 'product');
    const channels = inputs(plan, 'prices', 'channel');
    const row = products.findIndex((name, at) => name === product && channels[at] === channel);
    return {
      book: setCells(book, 'set_prices.csv', { product, channel }, { asking: written(19.35, plan) }),
      writes: [{ sheet: 'prices', column: 'asking_set', row, value: 19.35 }],
    };
  },
};

/** No price hangs on a sample, but its sheet must follow its inputs all the same: another weave, other cord. */
const aSample: Changing = (book, plan) => {
  const sample = String(inputs(plan, 'samples', 'sample')[0]);
  const cells = { weave: 'flat plait 5', cord_in: written(130.5, plan), half_knots: '' };
  return {
    book: setCells(book, 'samples.csv', { sample }, cells),
    writes: [
      { sheet: 'samples', column: 'weave', row: 0, value: 'flat plait 5' },
      { sheet: 'samples', column: 'cord_in', row: 0, value: 130.5 },
      { sheet: 'samples', column: 'half_knots', row: 0, value: null },
    ],
  };
};

/** Writes into our own workbook as a maker would, and leaves every result as it was. */
async function edited(bytes: Uint8Array, plan: Plan, writes: readonly Write[]): Promise<Uint8Array> {
  const index = new PlanIndex(plan);
  const book = new ExcelJS.Workbook();
  await book.xlsx.load(bytes.buffer as ArrayBuffer);
  for (const { sheet: id, column, row, value } of writes) {
    const { sheet, columns } = index.sheet(id);
    const place = cellAddress(sheet, columns.get(column)?.at ?? -1, row);
    const cell = book.getWorksheet(sheet.title)?.getCell(`${columnLetters(place.column)}${place.row}`);
    if (cell === undefined) throw new Error(`no cell for ${id}.${column}`);
    expect(cell.formula, 'only inputs are written').toBeUndefined();
    expect(cell.protection?.locked, `${id}.${column} is unlocked`).toBe(false);
    cell.value = value;
  }
  return new Uint8Array((await book.xlsx.writeBuffer()) as ArrayBuffer);
}

describe.skipIf(findLibreOffice() === undefined)('a workbook stays alive', () => {
  let folder = '';
  beforeAll(async () => {
    folder = await mkdtemp(join(tmpdir(), 'sennit-alive-'));
  });
  afterAll(() => rm(folder, { recursive: true, force: true }));

  /** The workbook edited and recalculated against the engine's fresh run of the edited book. */
  async function check(name: string, chosen: readonly Changing[]): Promise<void> {
    let text: BookText = demoBook(name);
    const before = pricedBook(text);
    const writes: Write[] = [];
    for (const change of chosen) {
      const made = change(text, before.plan);
      text = made.book;
      writes.push(...made.writes);
    }
    const after = pricedBook(text);
    const bytes = await workbook(before.plan, wrongValues(before.values), {
      date: '2026-03-02',
      version: '0.0.0',
    });
    const file = join(folder, `${name}-${writes.map(({ column }) => column).join('-')}.xlsx`);
    await writeFile(file, await edited(bytes, before.plan, writes));
    const sheets = await recalculatedCells(file);
    expect(readable(differences(after.plan, after.values, sheets))).toBe('');
    // The change must have reached the prices, or the test shows nothing.
    const moved = differences(before.plan, before.values, sheets).filter(
      ({ cell }) => cell.sheet.id === 'prices',
    );
    expect(moved.length).toBeGreaterThan(0);
  }

  test.each(Object.entries(changes))('after a change of %s', (_, change) => check('starter', [change]));

  test.each(demoBooks)('after all changes together, in the book %s', (name) =>
    check(name, [...Object.values(changes), aSample]),
  );
});
