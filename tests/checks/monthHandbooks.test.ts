import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { MonthReport } from '../../engine/index.ts';
import type { BookText } from '../support/books.ts';
import { inFreshFolder, runCli } from '../support/runCli.ts';
import { tradeBook } from '../support/tradeBook.ts';

/*
 * "OpenStax": Principles of Accounting, volumes 1 (financial) and 2 (managerial), Franklin, Graybeal and Cooper,
 * OpenStax, Rice University, 2019.
 */

/** `sennit month` on a book in a folder of its own. */
function month(book: BookText, id: string): Promise<MonthReport> {
  return inFreshFolder(async (folder) => {
    mkdirSync(join(folder, 'book'));
    for (const [name, text] of book) writeFileSync(join(folder, 'book', name), text);
    const { out, err, exitCode } = await runCli(['month', 'book', id, '--json'], { folder });
    expect(err).toBe('');
    expect(exitCode).toBe(0);
    return JSON.parse(out) as MonthReport;
  });
}

describe('cost of sales of a month (OpenStax, volume 1, 10.2 and 10.3)', () => {
  // 150 at 21 on hand; 120 sold at 36, 225 in at 27, 180 sold at 39, 210 in at 33. Here pieces come in by being made
  // of one blank each, bought on the day.
  const trade = (method: string, timing: string): BookText =>
    tradeBook({
      settings: `stock_method: ${method}\nstock_timing: ${timing}\n`,
      stocktakes: [['2026-07-01', 'thing', 150, 3150]],
      purchases: [
        ['2026-07-10', 'P1', 'blank', 225, 6075],
        ['2026-07-25', 'P2', 'blank', 210, 6930],
      ],
      made: [
        ['2026-07-10', 'thing', 225, '', ''],
        ['2026-07-25', 'thing', 210, '', ''],
      ],
      sales: [
        ['2026-07-05', 'shop', 'thing', 120, 4320],
        ['2026-07-15', 'shop', 'thing', 180, 7020],
      ],
    });

  it.each([
    // As printed.
    ['first in first out', 'periodic', 7200, 4140, 8955],
    ['first in first out', 'perpetual', 7200, 4140, 8955],
    // Printed 8,283 and 7,872: the book rounds the unit cost of 16,155 / 585 to 27.62 first. Here it is not rounded.
    ['average', 'periodic', 8284.62, 3055.38, 7870.38],
    // Printed 7,253 and 8,902, unit costs rounded on the way; 7,252.9412 and 8,902.0588 unrounded.
    ['average', 'perpetual', 7252.94, 4087.06, 8902.06],
  ])('%s, %s', async (method, timing, costOfSales, grossMargin, closing) => {
    const report = await month(trade(method, timing), '2026-07');
    expect(report).toMatchObject({ netSales: 11_340, costOfSales, grossMargin });
    expect(report.finishedGoods).toMatchObject({ opening: 3150, in: 13_005, out: costOfSales, closing });
    expect(report.materials).toMatchObject({ opening: 0, in: 13_005, out: 13_005, closing: 0 });
    const booked = report.journal.find(({ posting }) => posting === 'cost_of_sales');
    expect(booked).toMatchObject({ debit: costOfSales, credit: 0 });
    expect(report.debits).toBe(report.credits);
  });
});

describe('the month of a job shop (OpenStax, volume 2, 4.5)', () => {
  // Raw materials 2,500 + 10,500 - 1,400 used = 11,600. Work in process 1,000 + 1,400 + 366 + 915 - 2,656 completed
  // = 1,025; finished goods 1,531 + 2,656 - 2,462 sold = 1,725. A book has no work in process of its own: job B comes
  // begun, as a material worth its 1,000, and job D, which stays open, counts among the finished goods.
  const book = new Map([
    ...tradeBook({ wage: 1, overhead: 250_000, hours: 100_000 }),
    [
      'materials.csv',
      'material,sold_by,diameter,pack,pack_price\ncord,length,4,100,0\nraw,piece,,1,1\nbegun B,piece,,1,1000\n',
    ],
    [
      'products.csv',
      `product,weave,over_cord,finished_length\n${['A', 'B', 'C', 'D'].map((job) => `job ${job},bar,cord,1\n`).join('')}`,
    ],
    [
      'parts.csv',
      'product,material,quantity\njob B,raw,200\njob B,begun B,1\njob C,raw,700\njob D,raw,500\n',
    ],
    ['work.csv', 'for,step,minutes_per_piece\n'],
    [
      'stocktakes.csv',
      'date,item,quantity,value\n2019-01-01,cord,1000000,0\n2026-03-31,raw,2500,2500\n2026-03-31,begun B,1,1000\n2026-03-31,job A,1,1531\n',
    ],
    ['purchases.csv', 'date,invoice,material,quantity,amount\n2026-04-02,R1,raw,10500,10500\n'],
    [
      'made.csv',
      'date,product,pieces,bench_hours\n2026-04-12,job C,1,66\n2026-04-20,job B,1,150\n2026-04-30,job D,1,150\n',
    ],
    [
      'sales.csv',
      'date,channel,product,pieces,takings\n2026-04-14,shop,job C,1,2000\n2026-04-15,shop,job A,1,3000\n',
    ],
  ]);

  it('rolls forward from raw materials to cost of goods sold', async () => {
    const report = await month(book, '2026-04');
    expect(report.materials).toMatchObject({
      opening: 2500 + 1000,
      in: 10_500,
      out: 1400 + 1000,
      closing: 11_600,
    });
    expect(report.finishedGoods).toMatchObject({
      opening: 1531,
      in: 2656 + 1025,
      out: 2462,
      closing: 1725 + 1025,
    });
    expect(report.costOfSales).toBe(2462);
    const credit = (posting: string): number =>
      report.journal.filter((line) => line.posting === posting).reduce((sum, line) => sum + line.credit, 0);
    expect([credit('labour_absorbed'), credit('overhead_absorbed')]).toEqual([366, 915]);
  });
});

describe('tax inside takings, to the coin', () => {
  // Examples of tax offices: HM Revenue and Customs (120 at 20 %, 105 at 5 %), Inland Revenue of New Zealand (1,725 at
  // 15 %), Australian Taxation Office (110 and 1,000 at 10 %). The last is nine times 9.99 at 20 %, 14.985 exactly:
  // the tax is rounded, not the net amount.
  it.each([
    [20, 120, 20],
    [5, 105, 5],
    [15, 1725, 225],
    [10, 110, 10],
    [10, 1000, 90.91],
    [20, 89.91, 14.99],
  ])('at %d per cent, %d holds %d', async (percent, takings, tax) => {
    const report = await month(
      tradeBook({
        settings: `tax_percent: ${percent}\n`,
        stocktakes: [['2026-09-30', 'thing', 5, 5]],
        sales: [['2026-10-01', 'shop', 'thing', 1, takings]],
        more: { 'channels.csv': 'channel,prices_include_tax\nshop,yes\n' },
      }),
      '2026-10',
    );
    expect(report.channels).toMatchObject([{ tax, gross: takings }]);
    expect(report.channels[0]?.net).toBeCloseTo(takings - tax, 9);
    expect(report.taxCollected).toBe(tax);
    expect(report.journal.find(({ posting }) => posting === 'tax_collected')?.credit).toBe(tax);
  });
});
