import Papa from 'papaparse';
import { describe, expect, it } from 'vitest';
import { priceListCsv } from '../../../engine/export/priceList/priceListCsv.ts';
import { demoBook } from '../../support/books.ts';
import { setCells } from '../../support/editBook.ts';
import { listOf, smallBook } from './lists.ts';

function csvOf(book: Parameters<typeof listOf>[0], channel: string): string {
  const { list, settings } = listOf(book, channel);
  return priceListCsv(list, settings);
}

/** Rows as another reader of RFC 4180 takes them. */
function rowsOf(csv: string): readonly (readonly string[])[] {
  const parsed = Papa.parse<string[]>(csv.replace(/^\uFEFF/, ''), { delimiter: ',', newline: '\r\n' });
  expect(parsed.errors).toEqual([]);
  expect(parsed.data.pop()).toEqual(['']);
  return parsed.data;
}

describe('a price list as CSV', () => {
  it('is by RFC 4180: commas, CRLF after every line, quotes doubled, as many cells in every row', () => {
    const book = setCells(
      smallBook(),
      'products.csv',
      { product: 'odd' },
      { name: 'Tag, "large"', description: 'Two\nlines, and "more"' },
    );
    const csv = csvOf(book, 'trade');
    expect(csv.startsWith('\uFEFFFamily,Product,')).toBe(true);
    expect(csv.endsWith('\r\n')).toBe(true);
    expect(csv).toContain('"Tag, ""large""","Two\nlines, and ""more""",');
    const [heading, ...rows] = rowsOf(csv);
    expect(heading).toEqual([
      'Family',
      'Product',
      'Description',
      'Size',
      'Body measure',
      'List price, USD',
      'Trade price, USD',
      'From 6, USD',
      'From 12, USD',
      'From 48, USD',
      'Tax',
      'Valid from',
      'Line sheet',
    ]);
    for (const row of rows) expect(row).toHaveLength(13);
    expect(rows[0]).toEqual([
      'Bands',
      'Band',
      'Two colours.',
      'small',
      '5 3/4 in',
      '100.00',
      '60.00',
      '60.00',
      '54.00',
      '48.00',
      'Prices are without tax; 6 % is added.',
      '2026-12-01',
      'Sluice Lane Cordworks',
    ]);
    // A line a size, though the page shows these three together.
    expect(rows.map((row) => `${row[1]} ${row[3]}`).slice(0, 3)).toEqual([
      'Band small',
      'Band medium',
      'Band large',
    ]);
  });

  it('writes figures for machines, whatever the notation of the book', () => {
    const rows = rowsOf(csvOf(demoBook('metric'), 'shops'));
    const [heading = [], first = []] = rows;
    expect(heading.slice(3, 8)).toEqual([
      'Size',
      'Body measure',
      'List price, EUR',
      'Trade price, EUR',
      'From 10, EUR',
    ]);
    for (const figure of first.slice(5, 9)) expect(figure).toMatch(/^\d+\.\d\d$/);
    expect(first.at(-1)).toBe('The Net Loft, Vorrelsand: Island shops');
  });

  /** OWASP ASVS 5.0, requirement 1.2.10: =, +, -, @, a tab and a null as first letter. */
  it.each(['=1+1', '+1', '-1', '@SUM(A1)', '\t=1', '＝1+1', '－1'])(
    'keeps %j from being taken for a formula',
    (name) => {
      const { list, settings } = listOf(smallBook(), 'shop');
      const hostile = {
        ...list,
        workshop: name,
        families: list.families.map(({ products }) => ({
          family: name,
          products: products.map((each) => ({
            name,
            description: name,
            prices: each.prices.map((price) => ({
              ...price,
              sizes: [{ size: name, fitsFromMm: null, fitsToMm: null }],
            })),
          })),
        })),
      };
      for (const row of rowsOf(priceListCsv(hostile, settings)).slice(1)) {
        expect(row.slice(0, 4)).toEqual([`'${name}`, `'${name}`, `'${name}`, `'${name}`]);
        for (const cell of row) expect(cell).not.toMatch(/^[=+\-@\t\r\n\0＝＋－＠]/);
      }
    },
  );

  it('leaves text alone that begins otherwise', () => {
    const book = setCells(smallBook(), 'products.csv', { product: 'odd' }, { name: "a=b 'quoted' - 1" });
    expect(csvOf(book, 'shop')).toContain("a=b 'quoted' - 1,");
  });
});
