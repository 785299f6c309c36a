import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { priceListWorkbook } from '../../../engine/export/priceList/priceListWorkbook.ts';
import { demoBook, demoBooks } from '../../support/books.ts';
import { setCells } from '../../support/editBook.ts';
import { findLibreOffice, recalculatedCells } from '../../support/libreoffice.ts';
import { plainText, writtenBook } from '../../support/xlsxParts.ts';
import { listOf, listsOf, type MadeList, smallBook } from './lists.ts';

const date = '2026-11-26';

async function bookOf({ list, settings }: MadeList): Promise<ReturnType<typeof writtenBook>> {
  return writtenBook(await priceListWorkbook(list, settings, date));
}

describe.each(demoBooks)('workbooks of the lists of %s', (name) => {
  const lists = [...listsOf(demoBook(name))];

  it.each(lists)(
    'hold one sheet of values: no formula, note, link or name beyond the print set-up (%s)',
    async (_, made) => {
      const { parts, sheets, names } = await bookOf(made);
      expect([...sheets.keys()]).toEqual([made.list.kind === 'line sheet' ? 'Line sheet' : 'Price list']);
      const [sheet] = [...sheets.values()];
      expect([...(sheet?.cells.values() ?? [])].filter(({ formula }) => formula !== undefined)).toEqual([]);
      expect([...names.keys()].sort()).toEqual(['_xlnm.Print_Area', '_xlnm.Print_Titles']);
      expect(
        [...parts.keys()].filter((part) => /comment|vml|externalLink|custom|calcChain|vba/i.test(part)),
      ).toEqual([]);
      expect([...parts.values()].join('')).not.toMatch(
        /<f[ >]|<hyperlink|<dataValidation|hidden=|veryHidden/,
      );
      expect(parts.get('docProps/core.xml')).toContain(`<dc:creator>${made.list.workshop}</dc:creator>`);
    },
  );

  it.each(lists)(
    'print on the paper of the book, as wide as the page, with headings on each (%s)',
    async (_, made) => {
      const { sheets, names } = await bookOf(made);
      const xml = [...sheets.values()][0]?.xml ?? '';
      expect(xml).toMatch(
        new RegExp(`<pageSetup[^>]*paperSize="${made.settings.lengthUnit === 'in' ? 1 : 9}"`),
      );
      expect(xml).toMatch(/<pageSetup[^>]*orientation="portrait"/);
      expect(xml).toMatch(/<pageSetup[^>]*fitToHeight="0"/);
      expect(names.get('_xlnm.Print_Titles')).toMatch(/\$\d+:\$\d+$/);
      expect(plainText(xml)).toContain('Valid from 1 December 2026');
    },
  );

  it.each(lists)('are the same bytes for the same list (%s)', async (_, { list, settings }) => {
    expect(await priceListWorkbook(list, settings, date)).toEqual(
      await priceListWorkbook(list, settings, date),
    );
  });
});

it('a list of many price breaks is laid across the page', async () => {
  const rows = Array.from({ length: 9 }, (_, at) => `trade,${2 + at},${1 + at},`).join('\n');
  const made = listOf(
    smallBook({ 'price_breaks.csv': `channel,from_pieces,discount_percent,for\n${rows}\n` }),
    'trade',
  );
  expect(made.list.breaksFrom).toHaveLength(9);
  expect([...(await bookOf(made)).sheets.values()][0]?.xml).toMatch(/<pageSetup[^>]*orientation="landscape"/);
});

it('text that looks like a formula, markup or a number stays text', async () => {
  const book = setCells(
    setCells(
      smallBook(),
      'products.csv',
      { product: 'odd' },
      { name: '=1+1', description: '<b>&"\'', family: '007', size: '1/2' },
    ),
    'channels.csv',
    { channel: 'shop' },
    { name: '@SUM(A1)', list_note: '-2+3' },
  );
  const { parts, sheets } = await bookOf(listOf(book, 'shop'));
  const shared = plainText((parts.get('xl/sharedStrings.xml') ?? '').replace(/<[^>]*>/g, '|'));
  for (const text of ['=1+1', '<b>&"\'', '007', '1/2', '-2+3'])
    expect(shared).toContain(`|${text === '<b>&"\'' ? '\n' : ''}${text}|`);
  expect(
    [...(sheets.get('Price list')?.cells.values() ?? [])].filter(({ formula }) => formula !== undefined),
  ).toEqual([]);
});

describe.skipIf(findLibreOffice() === undefined)('in LibreOffice', () => {
  it.each(demoBooks)(
    'every price of every list of %s stands beside its size, as it was given',
    async (name) => {
      for (const made of listsOf(demoBook(name)).values()) {
        const { list, settings } = made;
        const folder = await mkdtemp(join(tmpdir(), 'sennit-list-'));
        try {
          const file = join(folder, 'list.xlsx');
          await writeFile(file, await priceListWorkbook(list, settings, date));
          const sheets = await recalculatedCells(file);
          expect(sheets.size).toBe(1);
          const rows = [...sheets.values()][0] ?? [];
          const wanted = list.families.flatMap(({ products }) =>
            products.flatMap(({ prices }) =>
              prices.map(({ listPrice, price, breakPrices }) => [
                ...(listPrice === null ? [] : [listPrice]),
                price,
                ...breakPrices,
              ]),
            ),
          );
          const found = rows
            .map((row) => row.filter((cell) => typeof cell === 'number'))
            .filter((row) => row.length > 0);
          expect(found).toEqual(wanted);
          const texts = rows.flat().filter((cell) => typeof cell === 'string');
          for (const { family, products } of list.families) {
            expect(texts).toContain(family);
            for (const product of products)
              expect(texts.some((text) => String(text).split('\n')[0] === product.name)).toBe(true);
          }
        } finally {
          await rm(folder, { recursive: true, force: true });
        }
      }
    },
  );
});
