import { mkdirSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import type { BookText } from './books.ts';

/** A product that costs a plain sum, asks a plain price and takes plain minutes; sold in one channel, the shop. */
export interface PlainProduct {
  readonly product: string;
  readonly price: number;
  readonly cost: number;
  readonly minutes?: number;
  /** Pieces a month; without any product's, the book has no sales_mix.csv. */
  readonly expected?: number;
  readonly atLeast?: number;
  readonly atMost?: number;
  /** Pieces of bought material `clasp` in it, which cost nothing. */
  readonly clasps?: number;
}

export interface PlainBook {
  readonly products: readonly PlainProduct[];
  readonly overhead?: number;
  readonly hours?: number;
  /** Clasps that lie in stock; without a figure, stock.csv has no row for them. */
  readonly clasps?: number;
}

/** A book whose prices and costs are what a check says: no wage, no tax, no fees, cord that costs nothing. */
export function plainBook({ products, overhead = 0, hours = 1_000_000, clasps }: PlainBook): BookText {
  const rows = (heading: string, lines: readonly string[]): string => `${[heading, ...lines].join('\n')}\n`;
  const mixed = products.filter(({ expected }) => expected !== undefined);
  return new Map([
    [
      'book.yaml',
      `currency: USD\nwage_per_hour: 0\nbench_hours_per_month: ${hours}\nwanted_margin_percent: 0\n`,
    ],
    [
      'materials.csv',
      rows('material,sold_by,diameter,pack,pack_price', [
        'cord,length,4,100,0',
        'clasp,piece,,1,0',
        ...products.map(({ product, cost }) => `part of ${product},piece,,1,${cost}`),
      ]),
    ],
    [
      'products.csv',
      rows(
        'product,weave,over_cord,finished_length',
        products.map(({ product }) => `${product},bar,cord,1`),
      ),
    ],
    [
      'parts.csv',
      rows('product,material,quantity', [
        ...products.map(({ product }) => `${product},part of ${product},1`),
        ...products.filter((each) => each.clasps).map((each) => `${each.product},clasp,${each.clasps}`),
      ]),
    ],
    [
      'work.csv',
      rows(
        'for,step,minutes_per_piece',
        products.map(({ product, minutes = 0 }) => `${product},make,${minutes}`),
      ),
    ],
    ['overheads.csv', rows('overhead,per_month', [`all,${overhead}`])],
    ['channels.csv', 'channel\nshop\n'],
    [
      'set_prices.csv',
      rows(
        'product,channel,asking',
        products.map(({ product, price }) => `${product},shop,${price}`),
      ),
    ],
    ...(clasps === undefined
      ? []
      : [['stock.csv', rows('material,length,count,kind', [`clasp,${clasps},1,box`])] as const]),
    ...(mixed.length === 0
      ? []
      : [
          [
            'sales_mix.csv',
            rows(
              'product,channel,pieces_per_month,at_least,at_most',
              mixed.map(
                (each) => `${each.product},shop,${each.expected},${each.atLeast ?? ''},${each.atMost ?? ''}`,
              ),
            ),
          ] as const,
        ]),
  ]);
}

/** Writes a book into a folder. */
export function writeBook(folder: string, book: BookText): string {
  for (const [name, text] of book) {
    const path = join(folder, name);
    mkdirSync(dirname(path), { recursive: true });
    writeFileSync(path, text);
  }
  return folder;
}
