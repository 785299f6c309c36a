import { describe, expect, it } from 'vitest';
import { isFailure, type Values } from '../../../engine/calc/values.ts';
import { listSentences } from '../../../engine/export/priceList/listWords.ts';
import { priceListPage } from '../../../engine/export/priceList/priceListPage.ts';
import type { Plan } from '../../../engine/sheets/plan.ts';
import { demoBook, demoBooks, pricedBook } from '../../support/books.ts';
import { listsOf } from './lists.ts';
import { renderings, words } from './renderings.ts';

/** Sheets that tell what a price is made of: none of their figures and names is for customers. */
const confidential = [
  'rates',
  'materials',
  'packs',
  'stock',
  'overheads',
  'work',
  'cuts',
  'parts',
  'costs',
  'fees',
  'samples',
  'weaves',
  'scenarios',
  'sales_mix',
  'month',
  'break_even',
];
/** Columns of sheets of which customers may see others. */
const confidentialColumns: Readonly<Record<string, readonly string[]>> = {
  channels: [
    'selling_fixed',
    'fee_fixed',
    'fee_share',
    'postage_paid',
    'wanted_margin_percent',
    'list_factor',
  ],
  prices: [
    'unit_cost',
    'floor',
    'target',
    'fees',
    'net',
    'contribution',
    'profit',
    'margin',
    'markup',
    'contribution_per_hour',
  ],
  break_prices: ['unit_cost', 'floor', 'fees', 'profit', 'margin'],
};

function columnsOf(plan: Plan): readonly { sheet: string; column: string; rows: number }[] {
  return plan.sheets.flatMap(({ id, columns, rowCount }) =>
    columns
      // Words of a choice, such as piece and length, tell nothing of the book.
      .filter(({ kind }) => kind !== 'choice' && kind !== 'yes_no')
      .filter((column) => confidential.includes(id) || confidentialColumns[id]?.includes(column.id) === true)
      .map((column) => ({ sheet: id, column: column.id, rows: rowCount })),
  );
}

function cellsOf(plan: Plan, values: Values): readonly { of: string; value: unknown }[] {
  return columnsOf(plan).flatMap(({ sheet, column, rows }) =>
    Array.from({ length: rows }, (_, row) => ({
      of: `${sheet}.${column}`,
      value: values.get(sheet, column, row),
    })).filter(({ value }) => value !== null && !isFailure(value)),
  );
}

/** Columns of figures that are for customers of the channel that their row is of. */
const shownFigures: Readonly<Record<string, readonly string[]>> = {
  prices: ['asking', 'billed'],
  break_prices: ['price', 'from_pieces'],
  channels: ['tax', 'wholesale_discount_percent', 'least_order'],
};
/** Columns of words that the maker writes for customers. */
const shownWords: Readonly<Record<string, readonly string[]>> = {
  products: ['name', 'family', 'size', 'description'],
  channels: ['name', 'tax_name', 'list_note'],
};

function valuesOf(
  plan: Plan,
  values: Values,
  of: Readonly<Record<string, readonly string[]>>,
  channel?: string,
) {
  return plan.sheets.flatMap(({ id, rowCount }) =>
    (of[id] ?? []).flatMap((column) =>
      Array.from({ length: rowCount }, (_, row) => row)
        .filter((row) => channel === undefined || values.get(id, 'channel', row) === channel)
        .map((row) => values.get(id, column, row)),
    ),
  );
}

/** All that customers of a channel may read as a figure, by the sheets and not by the list. */
function allowedNumbers(plan: Plan, values: Values, channel: string): ReadonlySet<string> {
  const figures = valuesOf(plan, values, shownFigures, channel).filter((each) => typeof each === 'number');
  const measures = valuesOf(plan, values, { products: ['fits_from', 'fits_to'] }).filter(
    (each) => typeof each === 'number',
  );
  const texts = [
    ...figures.flatMap((each) => [
      each.toFixed(plan.settings.currencyDigits),
      String(each),
      // A share reads in per cent.
      String(Number((100 * each).toFixed(6))),
    ]),
    ...valuesOf(plan, values, shownWords).map(String),
    ...measures.flatMap((each) => [`${Math.floor(each)} ${fractions[(4 * each) % 4] ?? ''}`, String(each)]),
    '2026-12-01',
    // The same written out.
    '1',
    '2026',
  ];
  return new Set(texts.flatMap((text) => numbersIn(text)));
}

/** Body measures of the demo books have no finer ones. */
const fractions = ['', '1/4', '1/2', '3/4'];

/** Numbers in a text, each without its decimal mark's kind. */
function numbersIn(text: string): readonly string[] {
  return (text.match(/\d+(?:[.,]\d+)*/g) ?? []).map((each) => each.replace(',', '.'));
}

/** A figure as it might be written, at several roundings, as a figure and as a share in per cent. */
function spellings(value: number): readonly string[] {
  return [value, value * 100].flatMap((each) => [
    String(each),
    ...[2, 3, 4, 5, 6].map((digits) => Math.abs(each).toFixed(digits)),
  ]);
}

describe.each(demoBooks)('the lists of the book %s', (name) => {
  const book = demoBook(name);
  const { plan, values } = pricedBook(book);
  const cells = cellsOf(plan, values);
  const lists = [...listsOf(book)];

  it('looks for enough: costs, margins, wages, suppliers, names of materials and work', () => {
    const figures = cells.filter(({ value }) => typeof value === 'number');
    expect(figures.length).toBeGreaterThan(1000);
    expect(new Set(cells.map(({ of }) => of.split('.')[0])).size).toBeGreaterThan(10);
    const texts = cells.filter(({ value }) => typeof value === 'string').map(({ value }) => String(value));
    expect(texts.length).toBeGreaterThan(100);
  });

  it.each(lists)('show customers of %s no figure but those of the list', async (channel, made) => {
    const allowed = allowedNumbers(plan, values, channel);
    for (const [part, text] of await renderings(made)) {
      const strange = numbersIn(words(part, text)).filter((each) => !allowed.has(each));
      expect({ part, strange }).toEqual({ part, strange: [] });
    }
    // The test sees something: every price is among the words.
    const [first] = made.list.families[0]?.products[0]?.prices ?? [];
    const page = words('page', priceListPage(made.list, made.settings));
    expect(numbersIn(page)).toContain(first?.price.toFixed(made.settings.currencyDigits));
  });

  it.each(lists)(
    'hold no cost, margin, floor or wage in any part of a file for %s',
    async (channel, made) => {
      const allowed = allowedNumbers(plan, values, channel);
      const secret = new Map<string, string>();
      for (const { of, value } of cells) {
        // A figure of two places or less, such as 4.00 minutes, is a price of something else as well.
        if (typeof value !== 'number' || Number.isInteger(Number(value.toFixed(2)))) continue;
        for (const each of spellings(value)) if (!allowed.has(each)) secret.set(each, of);
      }
      expect(secret.size).toBeGreaterThan(1000);
      for (const [part, text] of await renderings(made)) {
        // Themes, styles and columns are of the format: their figures are sizes and colours.
        if (/styles|theme|^docProps\/app|\.rels$/.test(part)) continue;
        const content =
          part === 'page'
            ? words(part, text)
            : text.replace(
                /<\?xml[^>]*>|xmlns[:\w]*="[^"]*"|<col [^>]*>|<row [^>]*>|ht="[^"]*"|<rPr>.*?<\/rPr>/gs,
                '',
              );
        const body =
          part === 'json' ? content.replace(/"(ratio|fits\w+|tradeDiscount)": [\d.]+/g, '') : content;
        const found = [...new Set(body.match(/\d+[.,]\d+/g) ?? [])]
          .map((each) => each.replace(',', '.'))
          .filter((each) => secret.has(each) && !isOfFormat(part, each))
          .map((each) => `${each} (${secret.get(each)})`);
        expect({ part, found }).toEqual({ part, found: [] });
      }
    },
  );

  it.each(lists)(
    'hold no name of a material, supplier, weave, fee or step of work for %s',
    async (_, made) => {
      const shown = [
        ...valuesOf(plan, values, shownWords).map(String),
        made.list.workshop,
        ...listSentences({ ...made.list, families: [] }, made.settings),
        ...made.list.cautions.map(({ says }) => says),
      ]
        .join('\n')
        .toLowerCase();
      const secret = new Set(
        cells
          .flatMap(({ value }) => (typeof value === 'string' ? [value.trim().toLowerCase()] : []))
          // Short words, and words that the maker has written for customers, tell nothing.
          .filter((each) => each.length > 4 && !shown.includes(each)),
      );
      expect(secret.size).toBeGreaterThan(40);
      for (const [part, text] of await renderings(made)) {
        if (/styles|theme|\.rels$|Content_Types/.test(part)) continue;
        const content = (
          part === 'page' ? words(part, text) : text.replace(/<\/?[\w:]+[^>]*>/g, ' ')
        ).toLowerCase();
        const found = [...secret].filter((each) =>
          new RegExp(`\\b${escapedForPattern(each)}\\b`).test(content),
        );
        expect({ part, found }).toEqual({ part, found: [] });
      }
    },
  );

  it.each(lists)(
    'hold no key of a product or channel, no floor, no cost and no margin by its name for %s',
    async (_, made) => {
      for (const [part, text] of await renderings(made)) {
        const said = words(part, text).replace(/sales|value-added/g, '');
        expect(said).not.toMatch(
          /unit cost|floor|margin|markup|contribution|profit|wage|labour|overhead|supplier|material|bench/i,
        );
      }
      const page = words('page', priceListPage(made.list, made.settings));
      for (const key of ['fob short', 'pull plain', 'float fob', 'lead 120', 'collar night'])
        expect(page).not.toContain(key);
    },
  );
});

/** Margins and widths of the sheet's set-up, which stand in its XML as inches. */
function isOfFormat(part: string, figure: string): boolean {
  return part.startsWith('xl/worksheets/') && ['0.6', '0.7', '0.3', '0.35'].includes(figure);
}

function escapedForPattern(text: string): string {
  return text.replace(/[.*+?^${}()|[\]\\]/g, '\\$&');
}
