import { describe, expect, it } from 'vitest';
import { closedText } from '../../engine/month/closedMonth.ts';
import { stockBook } from '../../engine/stockBook.ts';
import { type BookText, demoBook, sourceOf } from '../support/books.ts';
import { monthOf, sha256 } from '../support/monthSource.ts';

/** A book with one file changed; the change must be one. */
function edited(book: BookText, file: string, from: RegExp, to: string): BookText {
  const before = book.get(file) ?? '';
  const after = before.replace(from, to);
  expect(after, `${file} holds ${from}`).not.toBe(before);
  return new Map([...book, [file, after]]);
}

function closedBy(book: BookText, id: string, closed = new Map<string, string>()): Map<string, string> {
  const { plan, figures } = monthOf(book, id, closed);
  const { currency } = plan.settings;
  const text = closedText({ month: id, closedOn: '2027-01-15', currency, figures }, sha256);
  return new Map([...closed, [`closed/${id}.csv`, text]]);
}

/** What has no day in the book: each of these makes an open October another one. */
const undated: readonly (readonly [string, string, RegExp, string])[] = [
  ['wage', 'book.yaml', /^wage_per_hour:.*$/m, 'wage_per_hour: 31.07'],
  ['on-costs', 'book.yaml', /^on_costs_percent:.*$/m, 'on_costs_percent: 33'],
  ['hours of a normal month', 'book.yaml', /^bench_hours_per_month:.*$/m, 'bench_hours_per_month: 37'],
  ['tax rate', 'book.yaml', /^tax_percent:.*$/m, 'tax_percent: 13.5'],
  ['fees', 'fees.csv', /$/, 'stall,new stand,7,net price,0.11\n'],
  ['what a piece takes', 'parts.csv', /^(fob long,split ring,)1$/m, '$12'],
  ['minutes', 'work.csv', /$/, 'fob long,polish,,11\n'],
];

describe('a closed October of the starter book', () => {
  const book = demoBook('starter');
  const closed = closedBy(book, '2026-10');
  const before = monthOf(book, '2026-10');

  it.each(undated)(
    'is the same month when %s is another one by now, and nothing is posted for it',
    (_, file, from, to) => {
      const after = edited(book, file, from, to);
      expect(monthOf(after, '2026-10').figures, 'an open month moves').not.toEqual(before.figures);
      const month = monthOf(after, '2026-10', closed);
      expect(month.changes).toEqual([]);
      expect(month.journal).toEqual(before.journal);
      expect(monthOf(after, '2026-11', closed).journal).toEqual(monthOf(book, '2026-11', closed).journal);
      // sennit stock values it alike.
      const files = { files: closed, sha256 };
      const span = { to: '2026-10-31' };
      const value = (of: BookText, by?: typeof files): unknown =>
        stockBook(sourceOf(of), span, by).values?.get('stock_totals', 'closing_value', 0);
      expect(value(after, files)).toBe(value(book));
    },
    60_000,
  );
});

describe('what came late for a closed month', () => {
  const book = demoBook('starter');
  const closed = closedBy(book, '2026-10');
  const late = edited(
    edited(book, 'purchase_costs.csv', /$/, 'CM 118,freight,10,,,the bill came late\n'),
    'sales.csv',
    /$/,
    '2026-10-30,stall,fob long,1,9.50,,found in the box\n',
  );
  const november = monthOf(late, '2026-11', closed);
  const posted = (posting: string): number =>
    november.journal
      .filter((line) => line.posting === posting && line.isLate)
      .reduce((sum, { debitCoins, creditCoins }) => sum + debitCoins - creditCoins, 0);

  it('is posted on all its sides in the first open month', () => {
    expect(posted('suppliers')).toBe(-1000);
    // 9.50 with 6 % of tax in it: 8.96 and 0.54. The stall keeps 4 % of 8.96, 2.1 % of 9.50 and 0.08 / 1.4: 0.62.
    expect(posted('sales')).toBe(-896);
    expect(posted('tax_collected')).toBe(-54);
    expect(posted('fees')).toBe(62);
    expect(posted('channel_receivable')).toBe(950 - 62);
    // What freight and the sale did to stock, and no more than a coin of rounding beside it.
    expect(Math.abs(posted('stock_difference'))).toBeLessThanOrEqual(2);
    expect(november.values.get('start', 'sums', 0)).toBe('all well');
    const told = november.problems.map(({ message }) => message);
    expect(told.some((each) => /figures of October 2026 changed since it was closed/.test(each))).toBe(true);
  });

  it('stands in the tax of the month, and line by line on its own sheet', () => {
    expect(november.values.total('tax', 'collected')).toBeCloseTo(0.54, 9);
    const changes = november.plan.sheets.find(({ id }) => id === 'late')?.rowCount ?? 0;
    const all = Array.from({ length: changes }, (_, row) => november.values.number('late', 'change', row));
    expect(all.length).toBeGreaterThan(5);
    expect(all.reduce((sum, each) => sum + each, 0)).toBeCloseTo(0, 9);
    const rows = november.plan.sheets.find(({ id }) => id === 'late_lines')?.rowCount ?? 0;
    const lines = Array.from({ length: rows }, (_, row) => [
      november.values.get('late_lines', 'entry', row),
      november.values.get('late_lines', 'posting', row),
      november.values.get('late_lines', 'closed_as', row),
      november.values.get('late_lines', 'is_now', row),
    ]);
    expect(lines).toContainEqual(['2026-10-02, Freight for invoice CM 118', 'suppliers', 16.5, 26.5]);
  });

  it('says in the journal which entry of which month each line is about', () => {
    const texts = new Map(
      november.journal.filter(({ isLate }) => isLate).map(({ posting, text }) => [posting, text]),
    );
    expect(texts.get('suppliers')).toBe(
      'Changes of closed months: 2026-10-02, Freight for invoice CM 118 (October 2026)',
    );
    expect(texts.get('sales')).toBe('Changes of closed months: 2026-10-31, Sales, stall (October 2026)');
    expect(texts.get('materials')).toContain('2026-10-02, Freight for invoice CM 118 (October 2026); ');
  });

  it('is settled once that month is closed, and then nothing is told of it any more', () => {
    const both = closedBy(late, '2026-11', closed);
    const december = monthOf(late, '2026-12', both);
    expect(december.journal).toEqual([]);
    expect(december.problems.filter(({ code }) => code === 'month-closed')).toEqual([]);
    expect(monthOf(late, '2026-11', both).changes).toEqual([]);
  });
});
