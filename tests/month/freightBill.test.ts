import { describe, expect, it } from 'vitest';
import { disagreements } from '../../engine/calc/agreement.ts';
import { evaluate } from '../../engine/calc/evaluate.ts';
import { monthOf } from '../support/monthSource.ts';
import { tradeBook } from '../support/tradeBook.ts';

/** 100.00 of goods in two lines, 60 and 40, on one invoice, and what it cost to bring them in. */
const withCosts = (
  costs: string,
  purchases = '2026-10-02,A1,the mill,blank,6,60\n2026-10-02,A1,the mill,cord,4,40\n',
) =>
  monthOf(
    tradeBook({
      more: {
        'purchases.csv': `date,invoice,supplier,material,quantity,amount\n${purchases}`,
        'purchase_costs.csv': costs,
      },
    }),
    '2026-10',
  );

type Month = ReturnType<typeof withCosts>;
const posted = ({ journal }: Month, text: string): [string, number][] =>
  journal
    .filter((line) => line.text.includes(text))
    .map(({ posting, debitCoins, creditCoins }) => [posting, debitCoins - creditCoins]);
const wellAndAlike = (month: Month): void => {
  expect(month.problems.filter(({ severity }) => severity === 'error')).toEqual([]);
  expect(month.values.get('start', 'sums', 0)).toBe('all well');
  expect(disagreements(month.plan, evaluate(month.plan), month.values)).toEqual([]);
};

describe('a freight bill of its own', () => {
  it('is owed to whoever billed it, under its number, with its tax reclaimed', () => {
    const month = withCosts('invoice,what,amount,supplier,bill,tax\nA1,freight,20,the carrier,4711,3.80\n');
    wellAndAlike(month);
    expect(posted(month, 'Freight for invoice A1, bill 4711, the carrier')).toEqual([
      ['materials', 2000],
      ['tax_paid', 380],
      ['suppliers', -2380],
    ]);
    // The invoice of the goods holds nothing of it.
    expect(posted(month, 'Invoice A1')).toEqual([
      ['materials', 10_000],
      ['suppliers', -10_000],
    ]);
    expect(month.values.total('tax', 'paid')).toBe(3.8);
    // Shared out by value, without the tax.
    expect([0, 1].map((row) => month.values.get('purchases', 'freight', row))).toEqual([12, 8]);
  });

  it('goes into stock with tax that is not reclaimed, by the lines of the goods', () => {
    const month = withCosts(
      'invoice,what,amount,supplier,tax,tax_reclaimed\nA1,freight,20,the carrier,4,no\n',
    );
    wellAndAlike(month);
    expect(posted(month, 'Freight for invoice A1, the carrier')).toEqual([
      ['materials', 2400],
      ['suppliers', -2400],
    ]);
    expect([0, 1].map((row) => month.values.get('purchases', 'freight', row))).toEqual([14.4, 9.6]);
    expect(month.values.total('tax', 'paid')).toBe(0);
  });

  it('of goods that came in over two months is posted in shares, its tax too', () => {
    const month = withCosts(
      'invoice,what,amount,supplier,tax\nA1,freight,20,the carrier,3.80\n',
      '2026-09-28,A1,the mill,blank,6,60\n2026-10-02,A1,the mill,cord,4,40\n',
    );
    wellAndAlike(month);
    expect(posted(month, 'Freight for invoice A1')).toEqual([
      ['materials', 800],
      ['suppliers', -800],
    ]);
    expect(posted(month, 'Tax on freight and duty for invoice A1')).toEqual([
      ['tax_paid', 152],
      ['suppliers', -152],
    ]);
  });

  it('that says its tax has none worked out on it with the goods', () => {
    const taxed = (cost: string): number => {
      const book = new Map(
        tradeBook({
          more: {
            'purchases.csv': 'date,invoice,material,quantity,amount\n2026-10-02,A1,blank,6,60\n',
            'purchase_costs.csv': cost,
          },
        }),
      );
      const materials = (book.get('materials.csv') ?? '').split('\n');
      const blank = materials.findIndex((line) => line.startsWith('blank,'));
      expect(blank).toBeGreaterThan(0);
      const wider = materials.map((line, at) =>
        line === '' ? line : `${line},${at === 0 ? 'unreclaimed_tax_percent' : at === blank ? '10' : ''}`,
      );
      const month = monthOf(book.set('materials.csv', wider.join('\n')), '2026-10');
      wellAndAlike(month);
      return month.values.total('invoices', 'tax') as number;
    };
    // A tenth of 60 and 20 where the bill says nothing, as the price of the material reckons; of 60 where it does.
    expect(taxed('invoice,what,amount\nA1,freight,20\n')).toBe(8);
    expect(taxed('invoice,what,amount,tax\nA1,freight,20,0\n')).toBe(6);
    expect(taxed('invoice,what,amount,tax,tax_reclaimed\nA1,freight,20,2,no\n')).toBe(6);
  });
});
