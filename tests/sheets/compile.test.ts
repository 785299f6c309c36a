import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { calculate } from '../../engine/calc/compiled/calculate.ts';
import { evaluate } from '../../engine/calc/evaluate.ts';
import { compile } from '../../engine/sheets/compile.ts';
import { demoBook, priceFiles } from '../support/books.ts';
import { make, withFormula } from './workshop.ts';

describe('compile', () => {
  it('is deterministic', () => {
    const { definitions, read } = make();
    expect(compile(definitions, read)).toEqual(compile(definitions, read));
  });

  it('does not mind the order of the sheets', () => {
    const { definitions, read, plan } = make();
    const reversed = compile([...definitions].reverse(), read).plan;
    expect([...reversed.sheets].sort((one, other) => (one.id < other.id ? -1 : 1))).toEqual(
      [...plan.sheets].sort((one, other) => (one.id < other.id ? -1 : 1)),
    );
  });

  it('fills placeholders in headings from the settings', () => {
    const { index } = make();
    expect(index.column('goods', 'length').heading).toBe('Length, in');
    expect(index.column('list', 'ticket_1').heading).toBe('stall, USD');
  });

  it('repeats a column for every key of another sheet', () => {
    const { index } = make();
    expect([...index.sheet('list').columns.keys()]).toEqual(['good', 'ticket_1', 'ticket_2', 'well']);
  });

  it('keeps only the crossed rows whose column is known not to be blank', () => {
    const { index } = make();
    expect(index.column('cuts', 'good').inputs).toEqual(['fob', 'fob', 'lead']);
    expect(index.column('cuts', 'role').inputs).toEqual(['main', 'other', 'main']);
  });

  it('keeps only the crossed rows of two sheets that go together, by the texts in their cells', () => {
    const offers = `
sheet: offers
title: Offers
answers: Which good each shop has.
rows: { cross: shops, with: goods, keep: offered }
key: [shop, good]
belongs: { column: shop, to: [shops] }
columns:
  - { id: shop, heading: Shop, kind: key }
  - { id: good, heading: Good, kind: key }
  - { id: offered, heading: Offered, kind: ref, formula: 'IF(shop & "-" & goods[good].main = "online-BLUE", good, IF(good = "fob", IF(shop = "stall", shop, ""), ""))' }
  - { id: price, heading: Price, kind: money, formula: "goods[good].main_price" }
`;
    const { index, plan, problems } = make({ offers });
    expect(problems).toEqual([]);
    expect(index.column('offers', 'shop').inputs).toEqual(['stall', 'online']);
    expect(index.column('offers', 'good').inputs).toEqual(['fob', 'lead']);
    expect(index.sheet('offers').sheet.inner).toBeUndefined();
    for (const values of [evaluate(plan), calculate(plan)]) {
      expect([0, 1].map((row) => values.number('offers', 'price', row))).toEqual([1.5, 12]);
      expect([0, 1].map((row) => values.get('offers', 'offered', row))).toEqual(['stall', 'lead']);
    }
  });

  it('keeps crossed rows of which it is not known whether they go together', () => {
    const offers = `
sheet: offers
title: Offers
answers: Which good each shop has.
rows: { cross: goods, with: shops, keep: offered }
key: [good, shop]
columns:
  - { id: good, heading: Good, kind: key }
  - { id: shop, heading: Shop, kind: key }
  - { id: offered, heading: Offered, kind: ref, formula: 'IF(goods[good].length = "3", good, "")' }
`;
    // A number is never equal to a text, whatever it reads as; that is for the calculation to say.
    expect(make({ offers }).index.sheet('offers').sheet).toMatchObject({ rowCount: 4, inner: 2 });
  });

  it('fills overrides of a crossed sheet from the sparse table', () => {
    expect(make().index.column('tickets', 'by_hand').inputs).toEqual([null, null, 40, null]);
  });

  it('knows where each row came from', () => {
    const { index } = make();
    expect(index.sheet('tickets').sheet.places[3]).toEqual({ file: 'goods.csv', row: 3 });
    expect(index.sheet('extras').sheet.places.map(({ row }) => row)).toEqual([3, 2, 4]);
  });

  it('refuses rows made from themselves, and look-ups by names that may change', () => {
    const self =
      'sheet: own\ntitle: Own\nanswers: Own.\nrows: { each: own }\nkey: good\ncolumns:\n  - { id: good, heading: Good, kind: key }\n';
    expect(make({ own: self }).problems.map(({ code }) => code)).toEqual(['circle']);
    expect(
      make(withFormula('tickets[good, goods[good].main].ticket')).problems.map(({ code }) => code),
    ).toEqual(['needs-key']);
    expect(make(withFormula('tickets[goods[good].good, "stall"].ticket')).problems).toEqual([]);
  });

  it('calculates what the formulas say', () => {
    const values = evaluate(make(withFormula('SUM(tickets.ticket) + goods[good].extras')).plan);
    expect(values.number('goods', 'main_price', 0)).toBe(1.5);
    expect(values.number('tickets', 'ticket', 2)).toBe(40);
    expect(values.number('list', 'ticket_1', 1)).toBe(40);
    expect(values.number('own', 'figure', 1)).toBe(4.5 + 4.5 + 40 + 36 + 3);
    expect(values.total('extras', 'cost')).toBeCloseTo(3.2, 12);
    expect(values.get('list', 'well', 0)).toBe('well');
  });

  it('gives values or problems for any formula of a sheet of the book, and never throws', () => {
    const piece = fc.constantFrom(
      'costs',
      'prices',
      'products',
      'rates',
      'parts',
      '[product]',
      '[product, "stall"]',
      '.unit_cost',
      '.asking',
      '.wage_per_hour',
      '.name',
      'product',
      'SUM',
      'IF',
      'ROUND',
      '(',
      ')',
      ',',
      '+',
      '/',
      '0',
      '1.5',
      '"stall"',
      '=',
      ' ',
      '^',
      '-',
      '&',
    );
    const files = demoBook('metric');
    files.delete('sheets/labels.yaml');
    fc.assert(
      fc.property(fc.array(piece, { maxLength: 12 }), (pieces) => {
        files.set(
          'sheets/own.yaml',
          `sheet: own\ntitle: Own\nanswers: Own.\nrows: { each: products }\nkey: product\ncolumns:\n  - { id: product, heading: Product, kind: key }\n  - { id: figure, heading: Figure, kind: money, formula: ${JSON.stringify(pieces.join(''))} }\n`,
        );
        const { problems, values } = priceFiles(files);
        expect(values !== undefined || problems.some(({ severity }) => severity === 'error')).toBe(true);
      }),
      { numRuns: 80 },
    );
  });
});
