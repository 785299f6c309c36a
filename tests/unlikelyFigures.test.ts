import { describe, expect, it } from 'vitest';
import { priceBook } from '../engine/priceBook.ts';
import { unlikelyFigures } from '../engine/unlikelyFigures.ts';
import { type BookText, demoBook, demoBooks, sourceOf } from './support/books.ts';

const told = (book: BookText): string[] =>
  unlikelyFigures(priceBook(sourceOf(book))).map(
    ({ severity, code, where, message }) =>
      `${severity} ${code} ${where.file} ${where.row} ${where.column}: ${message}`,
  );

/** The starter book with other text in one of its files. */
function changed(file: string, from: string, to: string): BookText {
  const book = demoBook('starter');
  const text = book.get(file) ?? '';
  if (text.split(from).length !== 2) throw new Error(`“${from}” must stand once in ${file}`);
  return new Map([...book, [file, text.replace(from, to)]]);
}

/** The starter book with a strap of this name and size, and a length in this column. */
function strap(name: string, size: string, length: string, column = 'woven_length_set'): BookText {
  const book = demoBook('starter');
  const [heads = '', ...rows] = (book.get('products.csv') ?? '').trimEnd().split('\n');
  const cells = new Map([
    ['product', name],
    ['size', size],
    ['weave', 'bar'],
    ['over_cord', 'slate cord'],
    [column, length],
    ['hardware_length', '1 1/4 in'],
  ]);
  const row = heads.split(',').map((id) => cells.get(id) ?? '');
  return new Map([...book, ['products.csv', [heads, ...rows, row.join(',')].join('\n')]]);
}

describe('figures of the plan that are hardly meant', () => {
  it.each(demoBooks)('are none in the demo book %s', (name) => {
    expect(told(demoBook(name))).toEqual([]);
  });

  it('are a length that the name speaks against, with a digit too many before it or behind it', () => {
    for (const [woven, finished] of [
      ['18 in', '19.25'],
      ['80 in', '81.25'],
    ] as const)
      expect(told(strap('Bracelet 8 in', '', woven))).toEqual([
        `watch unlikely products.csv 30 woven_length_set: The name or size of Bracelet 8 in says 8 in, and its finished length is ${finished} in.`,
      ]);
  });

  it('stand where the length was set', () => {
    expect(told(strap('Bracelet 8 in', '', '80 in', 'finished_length'))).toEqual([
      'watch unlikely products.csv 30 finished_length: The name or size of Bracelet 8 in says 8 in, and its finished length is 80.00 in.',
    ]);
    expect(told(strap('Bracelet 8 in', '', '80 in', 'measure'))).toMatchObject([
      expect.stringContaining('products.csv 30 measure:'),
    ]);
  });

  it('are a length in another unit than that of the size', () => {
    expect(told(strap('Bracelet', '20 cm', '20 in'))).toEqual([
      'watch unlikely products.csv 30 woven_length_set: The name or size of Bracelet says 20 cm, and its finished length is 21.25 in.',
    ]);
  });

  it.each([
    ['a piece as long as its name says', 'Bracelet 8 in', '', '7 in'],
    ['a loop that is named by its drop', 'Lanyard 18 in', '', '38 in'],
    ['a size that is no length', 'Bracelet', 'L 8', '40 in'],
    ['a width in the name', 'Collar 1 in wide', '', '14 in'],
    ['a number of pieces', 'Fobs, 5 in a box', '', '30 in'],
    ['a name of two lengths, one of which fits', 'Lead 4 ft with a 5 in handle', '', '46 in'],
  ])('are none in %s', (_, name, size, woven) => {
    expect(told(strap(name, size, woven))).toEqual([]);
  });

  it.each([
    [
      'materials.csv',
      'rust,4 mm,"1,000 ft",61.00',
      'rust,4 mm,"1,000 ft",610.00',
      'watch unlikely materials.csv 3 pack_price: Length for length, a pack of rust cord costs more than five times what others like it cost.',
    ],
    [
      'materials.csv',
      'rust,4 mm,"1,000 ft",61.00',
      'rust,4 mm,"1,000 ft",6.10',
      'watch unlikely materials.csv 3 pack_price: Length for length, a pack of rust cord costs less than a fifth of what others like it cost.',
    ],
    [
      'packs.csv',
      'split ring,500,58.00',
      'split ring,500,580.00',
      'watch unlikely packs.csv 7 price: Piece for piece, a pack of split ring costs more than five times what its first pack costs.',
    ],
    [
      'materials.csv',
      'rust,2 mm,100 ft,5.20',
      'rust,2 mm,100 ft,52.00',
      'watch unlikely materials.csv 11 pack_price: Length for length, a pack of rust fine costs more than five times what others like it cost.',
    ],
  ])('are a pack price ten times off in %s', (file, from, to, message) => {
    expect(told(changed(file, from, to))).toEqual([message]);
  });
});
