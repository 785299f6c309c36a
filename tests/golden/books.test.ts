import { readFileSync, writeFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { FieldSchema, TableSchema } from '../../engine/book/schema.ts';
import { bookSchema } from '../../engine/sheets/bookSchema.ts';
import type { ColumnDefinition, SheetDefinition } from '../../engine/sheets/definition.ts';
import { assemble } from '../../engine/sheets/readDefinitions.ts';
import { wrap } from '../../cli/terminal/table.ts';
import { expectGolden, refreshing } from '../support/golden.ts';
import { demoBook, priceFiles, shipped } from '../support/books.ts';

describe.each([
  { name: 'starter', products: 26, families: 6, channels: 3, under: ['lanyard eight', 'collar large'] },
  { name: 'metric', products: 8, families: 4, channels: 3, under: [] },
] as const)('the demo book $name', ({ name, products, families, channels, under }) => {
  const { plan, values, problems } = priceFiles(demoBook(name));
  const sheet = (id: string) => plan?.sheets.find((each) => each.id === id);

  it('has no errors, and only its prices under their floor to look at', () => {
    expect(problems.filter((each) => each.severity === 'error')).toEqual([]);
    expect(problems).toHaveLength(under.length);
    for (const [at, product] of under.entries()) {
      expect(problems[at]?.message).toContain(`product ${product}: the asking price`);
    }
  });

  it('has enough to show: products, families, channels', () => {
    const family = sheet('products')?.columns.find((column) => column.id === 'family')?.inputs ?? [];
    expect(sheet('products')?.rowCount).toBeGreaterThanOrEqual(products);
    expect(new Set(family).size).toBeGreaterThanOrEqual(families);
    expect(sheet('channels')?.rowCount).toBe(channels);
  });

  it('adds up, two ways', () => {
    expect(values?.get('start', 'sums', 0)).toBe('all well');
  });

  it('keeps bench time plausible: 8 to 70 minutes a piece', () => {
    for (let row = 0; row < (sheet('costs')?.rowCount ?? 0); row += 1) {
      const minutes = values?.number('costs', 'minutes', row) ?? 0;
      expect(minutes).toBeGreaterThan(8);
      expect(minutes).toBeLessThan(70);
    }
  });
});

describe('the metric demo book', () => {
  const { plan, values } = priceFiles(demoBook('metric'));

  it('shows what a maker can add without programming: a sheet, and a column of a shipped one', () => {
    const labels = plan?.sheets.find((each) => each.id === 'labels');
    expect(labels?.rowCount).toBe(9);
    expect(values?.get('labels', 'market_price', 0)).toBe(values?.get('prices', 'asking', 0));
    const share = values?.number('costs', 'materials_share', 0) ?? 0;
    expect(share).toBeCloseTo((values?.number('costs', 'materials', 0) ?? 0) / (values?.number('costs', 'unit_cost', 0) ?? 1), 12);
  });

  it('ends its prices as its channels say: tens of cents, and 0.90', () => {
    const channels = plan?.sheets.find((each) => each.id === 'prices')?.columns.find((each) => each.id === 'channel')?.inputs ?? [];
    channels.forEach((channel, row) => {
      const cents = Math.round((values?.number('prices', 'asking', row) ?? 0) * 100) % 100;
      if (channel === 'web') expect(cents).toBe(90);
      if (channel === 'market') expect([0, 50]).toContain(cents);
    });
  });
});

/** Lines as long as the others of the guide. */
function folded(text: string): string {
  return wrap(text, 102).map((line) => `  ${line}`).join('\n');
}

/** Names of the rows of a shipped table. */
function shippedKeys(file: string): string[] {
  return (shipped.tables.get(file) ?? '').trim().split('\n').slice(1).map((row) => row.split(',')[0] ?? '');
}

/** The book's own guide, made from the sheets, so that it cannot fall behind them. */
function aboutText(name: 'starter' | 'metric'): string {
  const { definitions } = assemble(shipped.sheets);
  const words: Readonly<Record<string, string>> =
    name === 'starter' ? { currency: 'USD', length: 'in', cord: 'ft', weight: 'oz', force: 'lbf' } : { currency: 'EUR', length: 'cm', cord: 'm', weight: 'g', force: 'N' };
  const fill = (text: string): string => text.replace(/\{(\w+)\}/g, (whole, word: string) => words[word] ?? whole);
  const columnsOf = new Map<string, { column: ColumnDefinition; sheet: SheetDefinition }>();
  for (const sheet of definitions) {
    for (const column of sheet.columns) {
      const table = column.from ?? ('table' in sheet.rows ? sheet.rows.table : undefined);
      if (table !== undefined) columnsOf.set(`${table}.${column.column ?? column.id}`, { column, sheet });
    }
  }
  const line = (table: TableSchema, field: FieldSchema): string => {
    const defined = columnsOf.get(`${table.table}.${field.id}`)?.column;
    if (defined === undefined) return `  ${field.id}: a name from ${field.of ?? 'another table'}.`;
    const says = [
      `${fill(defined.heading)}.`,
      field.kind === 'key' && table.key.length === 1 ? 'By this name other tables call the row.' : '',
      field.of === undefined ? '' : `A name from ${field.of}.`,
      field.choices === undefined ? '' : `One of: ${field.choices.join(', ')}.`,
      field.kind === 'yes_no' ? 'yes or no.' : '',
      fill(defined.note),
      field.required ? 'Needed.' : '',
      field.blank === undefined ? '' : `Blank means ${field.blank}.`,
    ];
    return `  ${field.id}: ${says.filter((each) => each !== '').join(' ')}`;
  };
  const { tables } = bookSchema(definitions);
  const parts = tables.map((table) => {
    const sheet = [...columnsOf].find(([id]) => id.startsWith(`${table.table}.`))?.[1].sheet;
    const answer = table.table === 'set_prices' ? 'Asking prices that you set by hand; every other price is worked out.' : fill(sheet?.answers ?? '');
    return [`${table.table}.csv${table.needed ? '' : ' (may be missing)'}`, `  ${answer}`, ...table.fields.map((field) => line(table, field))].join('\n');
  });
  return `${aboutHead(name)}\n${parts.join('\n\n')}\n`;
}

const aboutHead = (name: 'starter' | 'metric'): string => `This folder is a book: everything that prices depend on, in files that any spreadsheet program or text
editor can open. Its workshop and all its figures are invented.

How to start with your own figures
  1. book.yaml: your currency, wage, overhead hours and wanted margin. Every line is explained there.
  2. materials.csv: what you buy, with the price of a whole pack.
  3. products.csv: what you make; sizes.csv: the sizes it comes in. parts.csv: what else goes into each.
  4. work.csv: how many minutes each step takes. Time one batch and write what you measured.
  5. channels.csv and fees.csv: where you sell and what that takes.
  6. samples.csv: measure a test piece or two of each weave, and run sennit fit.
  Then: sennit check (is it all understood), sennit price (the prices), sennit workbook (a workbook of it all).
  For a batch: make.csv, what to make, and stock.csv, what lies in the workshop; then sennit cut (what to cut
  and what to buy).
  For a month: sales_mix.csv, what you expect to sell; then sennit breakeven (what pays the overhead) and
  sennit mix (what to make of your bench hours).
  For customers: what channels.csv and products.csv say to them, and price_breaks.csv, who gets what off;
  then sennit pricelist (price lists and line sheets without any cost in them).
  For stock and its value: stocktakes.csv, what you counted, then purchases.csv, made.csv, used.csv and sales.csv,
  what happened; then sennit stock, sennit variance, and sennit month for the bookkeeper.
  Replace a few rows at a time and run sennit check in between. Delete ends.csv, set_prices.csv, price_breaks.csv,
  sales_mix.csv, make.csv and what happened (stocktakes.csv, purchases.csv, purchase_costs.csv, day_rates.csv,
  made.csv, used.csv, sales.csv, overheads_paid.csv), or write your own in them.

How things are written
  The first line of a table holds the headings named below; their order is free. A column that you do not
  need may be left out. Columns of your own are kept and left alone.
${
  name === 'starter'
    ? `  Lengths may carry a unit (8 in, 7 1/2 in, 5/32", 20 cm, 1,000 ft); without one they are in, cord and
  webbing ft, diameters mm. A number with a comma stands in "quotation marks". Per cent: 35 means 35 %.`
    : `  Decimals are written with a comma (12,50) and cells are separated by semicolons. Lengths may carry a unit
  (20 cm, 4 mm, 30 m, 8 in); without one they are cm, cord and webbing m, diameters mm. Per cent: 35 means 35 %.
  The folder sheets/ holds two sheet files of the workshop's own: a sheet, and a column added to Costs.`
}
  Names (the first columns) tie the tables together: up to 60 characters, without * ? ~ |.
${folded(`Weaves that come with Sennit: ${shippedKeys('weaves.csv').join(', ')}. A row of weaves.csv adds one, or replaces the one of that name.`)}
${folded(`Cord kinds that come with Sennit: ${shippedKeys('cord_kinds.csv').join(', ')}. End kinds: ${shippedKeys('end_kinds.csv').join(', ')}. Rows of cord_kinds.csv and end_kinds.csv add to them in the same way.`)}
`;

describe.each(['starter', 'metric'] as const)('about.txt of the book %s', (name) => {
  it('names every table and column as the sheets do', () => {
    const path = new URL(`../../templates/books/${name}/about.txt`, import.meta.url);
    if (refreshing) writeFileSync(path, aboutText(name));
    expectGolden(readFileSync(path, 'utf8'), aboutText(name), `templates/books/${name}/about.txt`);
  });

  it('names every weave, cord kind and end kind that is shipped', () => {
    const names = ['weaves.csv', 'cord_kinds.csv', 'end_kinds.csv'].flatMap(shippedKeys);
    for (const each of names) expect(aboutText(name).replace(/\s+/g, ' ')).toContain(each);
  });
});
