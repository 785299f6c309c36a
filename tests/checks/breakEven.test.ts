import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { BreakEvenReport } from '../../engine/export/answers/breakEvenReport.ts';
import { type PlainBook, plainBook, writeBook } from '../support/plainBook.ts';
import { inFreshFolder, runCli } from '../support/runCli.ts';

/** What the program says of a book, by its real command. */
async function breakeven(book: PlainBook, ...options: string[]): Promise<BreakEvenReport> {
  return inFreshFolder(async (folder) => {
    const path = writeBook(join(folder, 'book'), plainBook(book));
    const { out, err, exitCode } = await runCli(['breakeven', path, '--json', ...options]);
    expect(err).toBe('');
    expect(exitCode).toBe(0);
    return JSON.parse(out) as BreakEvenReport;
  });
}

// Numbers of: OpenStax, Principles of Accounting, Volume 2: Managerial Accounting (Franklin, Graybeal, Cooper; Rice
// University 2019), chapter 3, licence CC BY-NC-SA 4.0: figures only.
describe('one product, price 100, variable cost 20, fixed costs 18,000 (section 3.2)', () => {
  const thing = { product: 'thing', price: 100, cost: 20 };
  const book = (expected?: number): PlainBook => ({
    overhead: 18_000,
    products: [{ ...thing, ...(expected === undefined ? {} : { expected }) }],
  });

  it('contributes 80, a ratio of 0.80, and breaks even at 225 units and 22,500', async () => {
    const { pairs, mix } = await breakeven(book());
    expect(mix).toBeNull();
    expect(pairs).toHaveLength(1);
    expect(pairs[0]?.contributionEach).toBeCloseTo(80, 9);
    expect(pairs[0]?.contributionRatio).toBeCloseTo(0.8, 12);
    expect(pairs[0]?.breakEven.pieces).toBeCloseTo(225, 9);
    expect(pairs[0]?.breakEven.piecesWhole).toBe(225);
    expect(pairs[0]?.breakEven.takings).toBeCloseTo(22_500, 7);
  });

  it.each([
    [175, -4000],
    [225, 0],
    [300, 6000],
  ])('at %i units the profit is %i', async (units, profit) => {
    const { mix } = await breakeven(book(units));
    expect(mix?.profit).toBeCloseTo(profit, 8);
    expect(mix?.breakEven.pieces).toBeCloseTo(225, 8);
  });

  it('a profit of 16,000 takes 425 units and 42,500', async () => {
    const { pairs, mix } = await breakeven(book(300), '--profit', '16000');
    expect(pairs[0]?.forWantedProfit.piecesWhole).toBe(425);
    expect(pairs[0]?.forWantedProfit.takings).toBeCloseTo(42_500, 7);
    expect(mix?.forWantedProfit.pieces).toBeCloseTo(425, 8);
  });

  it('24,000 after 40 % tax takes 40,000 before it: 725 units and 72,500', async () => {
    const { pairs, wantedProfitBeforeTax } = await breakeven(
      book(),
      '--profit',
      '24000',
      '--profit-tax',
      '40',
    );
    expect(wantedProfitBeforeTax).toBeCloseTo(40_000, 8);
    expect(pairs[0]?.forWantedProfit.piecesWhole).toBe(725);
    expect(pairs[0]?.forWantedProfit.takings).toBeCloseTo(72_500, 7);
  });

  // Section 3.1: fixed costs of 23,000. One sentence there misprints the contribution of 500 units as 36,000; it is 40,000.
  it.each([
    [500, 17_000],
    [750, 37_000],
  ])('with fixed costs of 23,000, %i units earn %i', async (units, profit) => {
    const { mix } = await breakeven(book(units), '--overhead', '23000');
    expect(mix?.contribution).toBeCloseTo(units * 80, 8);
    expect(mix?.profit).toBeCloseTo(profit, 8);
  });
});

describe('sensitivity: price 3.75, variable cost 1.50, fixed costs 2,475, 1,500 units (section 3.3)', () => {
  it.each([
    ['as it stands', 3.75, 1.5, 2475, 2.25, 1100, 4125, 900],
    ['price up by 0.50', 4.25, 1.5, 2475, 2.75, 900, 3825, 1650],
    ['variable cost up by 0.05', 3.75, 1.55, 2475, 2.2, 1125, 4218.75, 825],
    ['fixed costs up by 225', 3.75, 1.5, 2700, 2.25, 1200, 4500, 675],
    ['variable cost down by 0.05, fixed costs up by 400', 3.75, 1.45, 2875, 2.3, 1250, 4687.5, 575],
    ['and price up by 0.20', 3.95, 1.45, 2875, 2.5, 1150, 4542.5, 875],
  ])('%s', async (_, price, cost, overhead, contribution, units, sales, profit) => {
    const { pairs, mix } = await breakeven({
      overhead,
      products: [{ product: 'thing', price, cost, expected: 1500 }],
    });
    expect(pairs[0]?.contributionEach).toBeCloseTo(contribution, 9);
    expect(pairs[0]?.breakEven.pieces).toBeCloseTo(units, 8);
    expect(pairs[0]?.breakEven.piecesWhole).toBe(units);
    expect(pairs[0]?.breakEven.takings).toBeCloseTo(sales, 7);
    expect(mix?.profit).toBeCloseTo(profit, 8);
  });
});

describe('several products in fixed proportions (section 3.4)', () => {
  it('5 : 3 : 2 with fixed costs of 145,000: 4,715.45 composite units', async () => {
    const { mix } = await breakeven({
      overhead: 145_000,
      products: [
        { product: 'first', price: 6.25, cost: 3.25, expected: 5 },
        { product: 'second', price: 7.75, cost: 4.5, expected: 3 },
        { product: 'third', price: 9.25, cost: 6.25, expected: 2 },
      ],
    });
    expect(mix?.takings).toBeCloseTo(73, 9);
    expect(mix?.contribution).toBeCloseTo(30.75, 9);
    expect(mix?.breakEven.share).toBeCloseTo(4715.45, 2);
    expect(mix?.rows.map(({ breakEvenPieces }) => Math.round(breakEvenPieces ?? 0))).toEqual([
      23_577, 14_146, 9_431,
    ]);
    expect(Math.round(mix?.breakEven.takings ?? 0)).toBe(344_228);
  });

  // The solution there has a stray 15,385; its own 10,000 composite units are right.
  it('3 : 1 with fixed costs of 220,000: 10,000 composite units, sales of 390,000', async () => {
    const { mix } = await breakeven({
      overhead: 220_000,
      products: [
        { product: 'first', price: 10, cost: 4, expected: 3 },
        { product: 'second', price: 9, cost: 5, expected: 1 },
      ],
    });
    expect(mix?.contribution).toBeCloseTo(22, 9);
    expect(mix?.breakEven.share).toBeCloseTo(10_000, 7);
    expect(mix?.rows.map(({ breakEvenPieces }) => Math.round(breakEvenPieces ?? 0))).toEqual([
      30_000, 10_000,
    ]);
    expect(mix?.breakEven.takings).toBeCloseTo(390_000, 6);
  });
});
