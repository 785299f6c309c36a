import { expect, test } from 'vitest';
import { numberKinds } from '../../../engine/book/measures/kinds.ts';
import { digitsOfColumn, holdsText, numberFormat } from '../../../engine/export/pages/numberFormats.ts';
import { PlanIndex } from '../../../engine/sheets/planIndex.ts';
import { demoBook, pricedBook } from '../../support/books.ts';

const { plan } = pricedBook(demoBook('starter'));
const { settings } = plan;

test('each kind has one style: grouped, minus for negatives, zero as a dash, air on the right', () => {
  expect(numberFormat('money', settings)).toBe('#,##0.00_w;-#,##0.00_w;–_w');
  expect(numberFormat('money_per_unit', settings)).toBe('#,##0.0000_w;-#,##0.0000_w;–_w');
  expect(numberFormat('percent', settings)).toBe('0.0 %_w;-0.0 %_w;–_w');
  expect(numberFormat('count', settings)).toBe('#,##0_w;-#,##0_w;–_w');
  expect(numberFormat('minutes', settings)).toBe('#,##0.0_w;-#,##0.0_w;–_w');
});

test('money has the digits of its currency', () => {
  expect(numberFormat('money', { ...settings, currencyDigits: 0 })).toBe('#,##0_w;-#,##0_w;–_w');
  expect(numberFormat('money_per_unit', { ...settings, currencyDigits: 3 })).toContain('0.00000_w;');
});

test('an eighth of an inch keeps its third decimal, and five thirty-seconds in mm do not ask for five', () => {
  const index = new PlanIndex(plan);
  const trim = index.column('rates', 'trim_per_end');
  expect(digitsOfColumn({ ...trim, inputs: [0.125] }, settings)).toBe(3);
  expect(digitsOfColumn({ ...trim, inputs: [3.96875] }, settings)).toBe(2);
  const share = index.column('fees', 'percent');
  expect(digitsOfColumn({ ...share, inputs: [0.029, 0.0275] }, settings)).toBe(2);
  expect(digitsOfColumn({ ...share, inputs: [0.029] }, settings)).toBe(2);
});

test('words are words', () => {
  expect(['key', 'text', 'ref', 'choice', 'yes_no'].every((kind) => holdsText(kind as 'key'))).toBe(true);
  expect(holdsText('money')).toBe(false);
});

test('no format but that of dates has a letter that careless readers take for a date', () => {
  for (const kind of numberKinds.filter((each) => each !== 'date'))
    expect(numberFormat(kind, settings)).not.toMatch(/[ymdhsb]/i);
});

test('a column may have more rows than a call takes arguments', () => {
  const trim = new PlanIndex(plan).column('rates', 'trim_per_end');
  expect(digitsOfColumn({ ...trim, inputs: Array(300_000).fill(0.125) }, settings)).toBe(3);
});
