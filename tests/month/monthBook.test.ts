import { describe, expect, it } from 'vitest';
import { stockBook } from '../../engine/stockBook.ts';
import { demoBook, demoBooks, sourceOf } from '../support/books.ts';
import { monthOf } from '../support/monthSource.ts';
import { tradeBook } from '../support/tradeBook.ts';

describe.each(demoBooks)('October of the demo book %s', (name) => {
  const { plan, values } = monthOf(demoBook(name), '2026-10');
  const stock = stockBook(sourceOf(demoBook(name)), { from: '2026-10-01', to: '2026-10-31' });

  it('has the variances that the sheets of the book work out', () => {
    const total = (column: string): unknown => stock.values?.get('variance_totals', column, 0);
    for (const [own, theirs] of [
      ['price', 'price_variance'],
      ['usage', 'usage_variance'],
      ['lost', 'lost_variance'],
      ['wage_rate', 'rate_variance'],
      ['efficiency', 'efficiency_variance'],
      ['overhead', 'overhead_under'],
    ] as const)
      expect(values.total('variances', own)).toBeCloseTo(Number(total(theirs)), 9);
  });

  it('ends with the stock that sennit stock finds', () => {
    const rows = stock.plan?.sheets.find(({ id }) => id === 'stock_items')?.rowCount ?? 0;
    const theirs = new Map(
      Array.from({ length: rows }, (_, row) => [
        String(stock.values?.get('stock_items', 'item', row)),
        stock.values?.number('stock_items', 'closing_value', row),
      ]),
    );
    let found = 0;
    for (const [sheet, item] of [
      ['materials', 'material'],
      ['products', 'product'],
    ] as const) {
      const count = plan.sheets.find(({ id }) => id === sheet)?.rowCount ?? 0;
      for (let row = 0; row < count; row += 1) {
        const value = values.number(sheet, 'closing_value', row);
        expect(value).toBeCloseTo(theirs.get(String(values.get(sheet, item, row))) ?? Number.NaN, 9);
        found += 1;
      }
    }
    expect(found).toBeGreaterThan(10);
  });
});

describe('a month in which more left than was there', () => {
  const { problems, values } = monthOf(
    tradeBook({
      sales: [['2026-10-03', 'shop', 'thing', 4, 40]],
      made: [['2026-10-09', 'thing', 3, '', '']],
      stocktakes: [['2026-09-30', 'blank', 10, 10]],
    }),
    '2026-10',
  );

  it('says on which day, and what is missing at its end', () => {
    const told = problems.map(({ message, severity }) => `${severity}: ${message}`);
    expect(told).toContain('watch: On 2026-10-03 thing was 4 below nothing: more left than was there.');
    expect(told.some((each) => each.includes('thing: -1') && each.includes('at the end of the month'))).toBe(
      true,
    );
    expect(values.get('start', 'sums', 0)).toBe('all well');
    expect(values.get('start', 'negative', 0)).toBe(
      'look: 1 below nothing at the end of the month, see the sheets Materials and Finished goods',
    );
  });
});
