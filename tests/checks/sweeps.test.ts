import { describe, expect, it } from 'vitest';
import type { SensitivityReport, SolveReport, SweepTableReport } from '../../engine/index.ts';
import { askBook } from '../support/askBook.ts';
import type { BookText } from '../support/books.ts';
import { setFigure } from '../support/editBook.ts';
import { plainBook } from '../support/plainBook.ts';

// Numbers of: OpenStax, Principles of Accounting, Volume 2: Managerial Accounting (Franklin, Graybeal, Cooper; Rice
// University 2019), chapter 3, licence CC BY-NC-SA 4.0: figures only.

const asked = [
  'contribution of thing',
  "month's break-even pieces",
  "month's break-even takings",
  "month's profit",
];

/** Results at each step, down by down: contribution, pieces and takings at break-even, profit. */
async function table(book: BookText, ...options: string[]): Promise<(number | null)[][][]> {
  const results = asked.flatMap((each) => ['--of', each]);
  const report = await askBook<SweepTableReport>(book, 'sensitivity', ...results, ...options);
  const [first] = report.results;
  return (first?.rows ?? []).map((row, down) =>
    row.map((_, across) => report.results.map(({ rows }) => rows[down]?.[across] ?? null)),
  );
}

function expectFigures(found: readonly (number | null)[] | undefined, wanted: readonly number[]): void {
  expect(found).toHaveLength(wanted.length);
  for (const [at, each] of wanted.entries()) expect(found?.[at]).toBeCloseTo(each, 7);
}

describe('sensitivity: price 3.75, variable cost 1.50, fixed costs 2,475, 1,500 units (section 3.3)', () => {
  const book = (price = 3.75): BookText =>
    plainBook({ overhead: 2475, products: [{ product: 'thing', price, cost: 1.5, expected: 1500 }] });

  it('price up by 0.50', async () => {
    const [row] = await table(book(), '--across', 'asking price of thing = +0..+0.50 by 0.50');
    expectFigures(row?.[0], [2.25, 1100, 4125, 900]);
    expectFigures(row?.[1], [2.75, 900, 3825, 1650]);
  });

  it('variable cost up by 0.05', async () => {
    const [row] = await table(book(), '--across', 'price of part of thing = 1.50..1.55 by 0.05');
    expectFigures(row?.[0], [2.25, 1100, 4125, 900]);
    expectFigures(row?.[1], [2.2, 1125, 4218.75, 825]);
  });

  it('fixed costs up by 225', async () => {
    const [row] = await table(book(), '--across', 'overhead = 2475..2700 by 225');
    expectFigures(row?.[1], [2.25, 1200, 4500, 675]);
  });

  const both = [
    ...['--across', 'price of part of thing = -0.05..0 by 0.05'],
    ...['--down', 'overhead = 2475..2875 by 400'],
  ];

  it('variable cost down by 0.05 and fixed costs up by 400', async () => {
    const rows = await table(book(), ...both);
    expectFigures(rows[0]?.[1], [2.25, 1100, 4125, 900]);
    expectFigures(rows[1]?.[0], [2.3, 1250, 4687.5, 575]);
  });

  it('and price up by 0.20', async () => {
    const rows = await table(book(3.95), ...both);
    expectFigures(rows[1]?.[0], [2.5, 1150, 4542.5, 875]);
  });

  it('ranks what moves the profit by its own sums: 1,500 x (price - cost) - fixed costs', async () => {
    const { today, lines, still } = await askBook<SensitivityReport>(book(), 'sensitivity');
    expect(today).toBeCloseTo(900, 9);
    const profits = lines.map(({ input, low, high }) => [input, low.result, high.result]);
    expect(profits).toEqual([
      // 3.375 and 4.125 stand on a ticket as 3.38 and 4.13.
      ['asking prices', expect.closeTo(1500 * 1.88 - 2475, 8), expect.closeTo(1500 * 2.63 - 2475, 8)],
      ['pieces a month', expect.closeTo(900 - 337.5, 8), expect.closeTo(900 + 337.5, 8)],
      ['overhead', expect.closeTo(900 + 247.5, 8), expect.closeTo(900 - 247.5, 8)],
      ['parts', expect.closeTo(900 + 225, 8), expect.closeTo(900 - 225, 8)],
    ]);
    for (const each of lines) expect(still).not.toContain(each.input);
  });
});

describe('price 100, variable cost 20, fixed costs 18,000 (section 3.2), asked the other way round', () => {
  const book = plainBook({
    overhead: 18_000,
    products: [{ product: 'thing', price: 100, cost: 20, expected: 300 }],
  });
  const taxed = setFigure(
    new Map([...book, ['book.yaml', `${book.get('book.yaml')}profit_tax_percent: 0\n`]]),
    'profit_tax_percent',
    '40',
  );

  it.each([
    ['break-even', book, "month's profit = 0", 225],
    ['a target profit of 16,000', book, "month's profit = 16000", 425],
    ['24,000 after 40 % tax', taxed, "month's profit after tax = 24000", 725],
  ])('%s', async (_, files, until, units) => {
    const report = await askBook<SolveReport>(files, 'solve', '--vary', 'pieces a month', '--until', until);
    expect(report.answers).toHaveLength(1);
    const [answer] = report.answers;
    if (answer?.how !== 'exact') throw new Error('one figure was expected');
    expect(answer.point.at).toBeCloseTo(units, 7);
    expect(Math.abs(answer.checks[0]?.residual ?? Number.NaN)).toBeLessThan(1e-6);
  });
});
