import { expect, test } from 'vitest';
import { demoBook, pricedBook } from '../support/books.ts';

/** The values of a column of a maker's own sheet, one row a product, with its kind and formula. */
function column(kind: string, formula: string): unknown[] {
  const sheet = `sheet: own
title: Own
answers: Nothing.
rows: { each: products }
key: product
columns:
  - { id: product, heading: Product, kind: key }
  - { id: passed, heading: Passed, kind: ${kind}, formula: '${formula}' }
  - { id: known, heading: Known, kind: text, formula: 'IF(ISNUMBER(passed), "number", "text")' }
`;
  const { values } = pricedBook(new Map([...demoBook('starter'), ['sheets/own.yaml', sheet]]));
  return [values.get('own', 'passed', 0), values.get('own', 'known', 0)];
}

test('a blank number that is passed on is zero, as in a spreadsheet program', () => {
  expect(column('fine', 'products[product].slot_width')).toEqual([0, 'number']);
  expect(column('fine', 'IF(1 = 1, products[product].slot_width, 2)')).toEqual([0, 'number']);
});

test('a blank number stays zero through every function that only passes it on', () => {
  for (const formula of [
    'IFERROR(products[product].slot_width, 1)',
    'IFNA(products[product].slot_width, 1)',
    'SWITCH(1, 2, 3, products[product].slot_width)',
  ])
    expect(column('fine', formula)).toEqual([0, 'number']);
  expect(column('fine', 'products[product].slot_width + 1')).toEqual([1, 'number']);
});

test('a blank text that is passed on is empty', () => {
  expect(column('text', 'products[product].upper_over_cord')).toEqual(['', 'text']);
});

test('what is not blank is passed on as it is', () => {
  expect(column('length', 'products[product].finished_length')).toEqual([4, 'number']);
  expect(column('text', 'products[product].family')).toEqual(['Key fobs', 'text']);
});
