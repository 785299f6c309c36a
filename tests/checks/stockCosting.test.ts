import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { StockReport } from '../../engine/export/answers/stockReport.ts';
import { writeBook } from '../support/plainBook.ts';
import { inFreshFolder, runCli } from '../support/runCli.ts';
import { type Trade, tradeBook } from '../support/tradeBook.ts';

/** What the program says of a book, by its real command. */
async function stock(trade: Trade, ...options: string[]): Promise<StockReport> {
  return inFreshFolder(async (folder) => {
    const path = writeBook(join(folder, 'book'), tradeBook(trade));
    const { out, err, exitCode } = await runCli(['stock', path, '--json', ...options]);
    expect(err).toBe('');
    expect(exitCode).toBe(0);
    return JSON.parse(out) as StockReport;
  });
}

// Numbers of: OpenStax, Principles of Accounting, Volume 1: Financial Accounting (Franklin, Graybeal, Cooper; Rice
// University 2019), sections 10.1 to 10.3, licence CC BY-NC-SA 4.0: figures only. What is merely bought and sold
// there is here made of one bought blank at no labour, either when it comes in or when it is sold.
describe('150 @ 21, sell 120 @ 36, buy 225 @ 27, sell 180 @ 39, buy 210 @ 33 (sections 10.2 and 10.3)', () => {
  const sales = [
    ['2019-07-05', 'shop', 'thing', 120, 4320],
    ['2019-07-15', 'shop', 'thing', 180, 7020],
  ];
  const purchases = [
    ['2019-07-10', 'A', 'blank', 225, 6075],
    ['2019-07-25', 'B', 'blank', 210, 6930],
  ];
  const madeWhenSold: Trade = {
    sales,
    purchases,
    stocktakes: [['2019-07-01', 'blank', 150, 3150]],
    made: [
      ['2019-07-05', 'thing', 120, '', ''],
      ['2019-07-15', 'thing', 180, '', ''],
    ],
  };
  const madeWhenBought: Trade = {
    sales,
    purchases,
    stocktakes: [['2019-07-01', 'thing', 150, 3150]],
    made: [
      ['2019-07-10', 'thing', 225, '', ''],
      ['2019-07-25', 'thing', 210, '', ''],
    ],
  };

  it.each([
    ['first in first out', 'periodic', 8955, 7200, 4140],
    ['first in first out', 'perpetual', 8955, 7200, 4140],
    // Exact: 285 x 359/13 = 7,870.3846. Printed are 7,872, 8,283 and 3,057, as the book rounds the cost of one to
    // 27.62 first.
    ['average', 'periodic', 7870.38, 8284.62, 3055.38],
    // Exact: 8,902.0588 and 7,252.9412; printed in whole units: 8,902, 7,253 and 4,087.
    ['average', 'perpetual', 8902.06, 7252.94, 4087.06],
  ])('by %s, %s', async (method, timing, closing, cost, gross) => {
    const { totals } = await stock(madeWhenSold, '--method', method, '--timing', timing);
    expect(totals).toMatchObject({
      closingValue: closing,
      costOfSales: cost,
      netSales: 11_340,
      grossProfit: gross,
    });
    expect((totals.openingValue ?? 0) + (totals.boughtValue ?? 0)).toBe(3150 + 13_005);
  });

  it.each([
    ['first in first out', 'periodic', 8955, 7200],
    ['first in first out', 'perpetual', 8955, 7200],
    ['average', 'perpetual', 8902.06, 7252.94],
  ])('finished pieces are valued alike: by %s, %s', async (method, timing, closing, cost) => {
    const { totals, items } = await stock(madeWhenBought, '--method', method, '--timing', timing);
    expect(totals).toMatchObject({ closingValue: closing, closingProducts: closing, costOfSales: cost });
    expect(items.find(({ item }) => item === 'thing')?.quantity.closing).toBe(285);
  });

  it('costs of the single sales: 2,520 and 4,680 by layers, 4,733 (printed) by moving average', async () => {
    const costs = async (method: string): Promise<number[]> =>
      (await stock(madeWhenBought, '--method', method)).moves
        .filter(({ what }) => what === 'sold')
        .map(({ value }) => -value);
    expect(await costs('fifo')).toEqual([2520, 4680]);
    expect(await costs('average')).toEqual([2520, 4732.94]);
  });

  it('says what is there on any day: the moving average of one is 26.29 (printed) after the 10th', async () => {
    const on = async (day: string): Promise<(number | null | undefined)[]> => {
      const { items } = await stock(madeWhenBought, '--on', day);
      const thing = items.find(({ item }) => item === 'thing');
      return [thing?.quantity.closing, thing?.value.closing];
    };
    expect(await on('2019-07-04')).toEqual([150, 3150]);
    expect(await on('2019-07-05')).toEqual([30, 630]); // An alternative text there misprints 360.
    expect(await on('2019-07-10')).toEqual([255, 6705]); // 6,705 / 255 = 26.294.
    expect(await on('2019-07-24')).toEqual([75, 1972.06]);
    expect(await on('2019-07-31')).toEqual([285, 8902.06]);
  });

  it('one piece sold at 36 leaves 15 by layers and 8.38 by the average of all (section 10.1)', async () => {
    const one: Trade = {
      ...madeWhenSold,
      made: [['2019-07-31', 'thing', 1, '', '']],
      sales: [['2019-07-31', 'shop', 'thing', 1, 36]],
    };
    expect((await stock(one, '--method', 'fifo')).totals.grossProfit).toBe(15);
    expect((await stock(one)).totals.grossProfit).toBe(8.38);
  });
});

it('50 + 20 - 18 = 52 pieces at 7 cost 364, of 490 there were 126 are left (section 10.1)', async () => {
  const trade: Trade = {
    stocktakes: [
      ['2019-01-01', 'blank', 50, 350],
      ['2019-01-31', 'blank', 18, ''],
    ],
    purchases: [['2019-01-10', 'A', 'blank', 20, 140]],
    made: [['2019-01-20', 'thing', 52, '', '']],
    sales: [['2019-01-20', 'shop', 'thing', 52, 500]],
  };
  const { totals, counts } = await stock(trade);
  expect(totals).toMatchObject({ costOfSales: 364, closingValue: 126, countedValue: 0 });
  expect(counts.map(({ expected, counted, difference }) => [expected, counted, difference])).toEqual([
    [18, 18, 0],
  ]);
});

// OpenStax, Principles of Accounting, Volume 2: Managerial Accounting, sections 4.4 and 4.5: overhead of 250,000 over
// 100,000 of labour is 2.50 for each of it. Labour here is paid 1 an hour, so that its hours are its cost.
describe('jobs with overhead at a rate set beforehand (sections 4.4 and 4.5)', () => {
  const rate = { wage: 1, overhead: 250_000, hours: 100_000 };

  it('a job of materials 700 and labour 66 costs 931 with overhead of 165, and leaves 1,069 of 2,000', async () => {
    const { totals } = await stock({
      ...rate,
      blanksEach: 700,
      stocktakes: [['2019-01-01', 'blank', 700, 700]],
      made: [['2019-01-15', 'thing', 1, 66, '']],
      sales: [['2019-01-31', 'shop', 'thing', 1, 2000]],
    });
    expect(totals).toMatchObject({
      labourValue: 66,
      overheadValue: 165,
      costOfSales: 931,
      grossProfit: 1069,
    });
  });

  it('rolls materials and finished pieces forward: 1,531 + 931 + 1,725 - 1,725 = 2,462 of cost of sales', async () => {
    // Job A was finished before. Job B had 1,000 in it already, which comes with its materials here.
    const { totals, items } = await stock(
      {
        ...rate,
        blanksEach: 1200,
        stocktakes: [
          ['2019-01-01', 'blank', 3500, 3500],
          ['2019-01-01', 'thing', 1, 1531],
        ],
        purchases: [['2019-01-05', 'A', 'blank', 10_500, 10_500]],
        made: [
          ['2019-01-20', 'thing', 1, 66, ''],
          ['2019-02-10', 'thing', 1, 150, ''],
        ],
        used: [['2019-01-20', 'blank', 700, 'made', '']],
        sales: [['2019-02-20', 'shop', 'thing', 2, 4000]],
      },
      ...['--method', 'fifo', '--from', '2019-01-01', '--to', '2019-02-28'],
    );
    expect(totals).toMatchObject({
      costOfSales: 2462,
      closingProducts: 1725,
      labourValue: 216,
      overheadValue: 540,
    });
    const blank = items.find(({ item }) => item === 'blank')?.value;
    expect(blank).toMatchObject({ bought: 14_000, used: -1900, closing: 12_100 });
  });
});

// In the spirit of IAS 2, 12 and 16(a); worked out by hand: 100 m at 0.30, of which 5 % are lost as a rule, made 90 m.
it('normal waste is in the cost of what was made, waste beyond it is an expense', async () => {
  const { totals, use, items } = await stock({
    blankPrice: 0.3,
    blanksEach: 90,
    wastePercent: 5,
    stocktakes: [['2019-01-01', 'blank', 100, 30]],
    made: [['2019-01-15', 'thing', 1, '', '']],
    used: [['2019-01-15', 'blank', 100, 'made', '']],
  });
  expect(totals).toMatchObject({ closingProducts: 28.42, wasteValue: 1.58, closingMaterials: 0 });
  expect(use[0]?.normal).toBeCloseTo(90 / 0.95, 5);
  expect(items.find(({ item }) => item === 'blank')?.quantity.closing).toBe(0);
});
