import { expect, test } from 'vitest';
import { demoBook } from '../../support/books.ts';
import { writtenPages } from '../../support/writtenPages.ts';

const { cell, plan } = await writtenPages(
  new Map([
    ...demoBook('starter'),
    [
      'sheets/more.yaml',
      'extends: materials\ncolumns:\n  - { id: shelf, heading: Shelf, kind: choice, choices: ["top, left", "the one called \\"low\\""] }\n',
    ],
  ]),
);

test('a reference offers the keys of the sheet it names', () => {
  const rule = cell('products', 'over_cord', 0).dataValidation;
  const count = plan.sheets.find(({ id }) => id === 'materials')?.rowCount ?? 0;
  expect(rule).toMatchObject({
    type: 'list',
    allowBlank: true,
    formulae: [`Materials!$A$3:$A$${2 + count}`],
  });
  expect(rule.error).toContain('Materials');
});

test('a choice and a yes or no offer their words', () => {
  expect(cell('materials', 'sold_by', 1).dataValidation.formulae).toEqual(['"length,piece"']);
  expect(cell('channels', 'prices_include_tax', 0).dataValidation.formulae).toEqual(['"yes,no"']);
});

test('words that a drop-down cannot hold are still tested', () => {
  expect(cell('materials', 'shelf', 0).dataValidation).toMatchObject({
    type: 'custom',
    formulae: [expect.stringMatching(/^OR\(\w+3="top, left",\w+3="the one called ""low"""\)$/)],
  });
});

test('bounds of a percentage are shares in the cell and per cent in the message', () => {
  const rule = cell('rates', 'wanted_margin_percent', 0).dataValidation;
  expect(rule).toMatchObject({ type: 'decimal', operator: 'lessThan', formulae: [1] });
  expect(rule.error).toContain('less than 100 %');
  const two = cell('materials', 'waste_percent', 0).dataValidation;
  expect(two.type).toBe('custom');
  expect(two.formulae[0]).toMatch(/^AND\(ISNUMBER\((\w+3)\),\1>=0,\1<1\)$/);
});

test('counts are whole, and every number refuses text', () => {
  expect(cell('products', 'layers', 0).dataValidation).toMatchObject({ type: 'whole', formulae: [1, 6] });
  expect(cell('rates', 'wage_per_hour', 0).dataValidation).toMatchObject({
    type: 'decimal',
    operator: 'greaterThanOrEqual',
    formulae: [0],
  });
});

test('keys, free text and computed cells have no rule', () => {
  for (const [sheet, column] of [
    ['materials', 'material'],
    ['materials', 'colour'],
    ['materials', 'unit_cost'],
  ] as const) {
    expect(cell(sheet, column, 0).dataValidation).toBeUndefined();
  }
});
