import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { StockReport } from '../../engine/export/answers/stockReport.ts';
import { writeBook } from '../support/plainBook.ts';
import { inFreshFolder, runCli } from '../support/runCli.ts';
import { type Trade, tradeBook } from '../support/tradeBook.ts';

const starter = 'templates/books/starter';
const metric = 'templates/books/metric';

async function ofTrade(trade: Trade, ...options: string[]) {
  return inFreshFolder(async (folder) =>
    runCli(['stock', writeBook(join(folder, 'book'), tradeBook(trade)), ...options]),
  );
}

describe('sennit stock', () => {
  it.each([
    [starter, []],
    [metric, []],
    [starter, ['--from', '2026-10-01']],
    [metric, ['--from', '1.10.2026', '--to', '31.10.2026']],
  ])('shows stock in 80 columns: %s %j', async (book, options) => {
    const { out, exitCode } = await runCli(['stock', book, ...options]);
    expect(exitCode).toBe(0);
    for (const line of out.split('\nNext:')[0]?.split('\n') ?? [])
      expect(line.length).toBeLessThanOrEqual(80);
    expect(out.split('\n')[0]).toMatch(/^Stock at the end of 2026-10-31: [\d.,]+ (USD|EUR), of it materials/);
    expect(out).toMatch(/= stock at the end +[\d.,]+/);
  });

  it('adds up in what it prints: stock at first, what came and what went make the stock at the end', async () => {
    for (const options of [[], ['--method', 'fifo', '--timing', 'periodic', '--period', 'quarter']]) {
      const { out } = await runCli(['stock', starter, ...options]);
      const lines = [...out.matchAll(/^(stock at first|[-+=] [a-z, ]+?) {2,}(-?[\d,]+\.\d\d)$/gm)];
      const cents = lines.map(
        ([, name = '', figure = '']) =>
          [name[0], Math.round(Number(figure.replaceAll(',', '')) * 100)] as const,
      );
      const sum = cents.reduce(
        (so, [sign, coins]) => (sign === '=' ? so : so + (sign === '-' ? -coins : coins)),
        0,
      );
      expect(cents.at(-1)).toEqual(['=', sum]);
      expect(cents.length).toBeGreaterThan(6);
    }
  });

  it('shows every movement of one item, by any capitals', async () => {
    const { out } = await runCli(['stock', starter, '--item', 'Split Ring']);
    expect(out).toMatch(
      /^2026-10-20 +returned to supplier +-50\.00 +-7\.69 +purchases\.csv row 8 +the fitt/m,
    );
    expect(out).toMatch(/^2026-10-31 +counted +-2\.03/m);
    expect(out).not.toContain('rust cord');
  });

  it('values by the method that is asked for once', async () => {
    const { out } = await runCli(['stock', starter, '--method', 'first-in first-out', '--json']);
    expect((JSON.parse(out) as StockReport).method).toBe('first in first out');
  });

  it('tells stock below nothing, with its day and row, and goes on', async () => {
    const short: Trade = {
      blankPrice: 2,
      stocktakes: [['2026-01-01', 'blank', 10, 20]],
      purchases: [['2026-01-20', 'A', 'blank', 10, 30]],
      made: [['2026-01-10', 'thing', 14, '', '']],
    };
    const { out, exitCode } = await ofTrade(short);
    expect(exitCode).toBe(0);
    expect(out).toMatch(/blank: -4\.00 on 2026-01-10 \(made\.csv, row 2\)\./);
    const { shortages, totals } = JSON.parse((await ofTrade(short, '--json')).out) as StockReport;
    expect(shortages).toEqual([{ item: 'blank', date: '2026-01-10', below: 4, source: 'made.csv, row 2' }]);
    expect(totals).toMatchObject({ closingMaterials: 18, closingProducts: 28, correctedValue: 4 });
    const negative = await ofTrade({ ...short, purchases: [] });
    expect(negative.exitCode).toBe(0);
    expect(negative.out).toMatch(/^blank +-4\.00 +pieces +-8\.00/m);
  });

  it.each([
    [['--on', '2026-10-31', '--to', '2026-10-31'], 'both say a last day'],
    [['--on', '03/10/2026'], '2026-10-03 or 2026-03-10'],
    [['--from', '2026-11-01', '--to', '2026-10-01'], '2026-11-01 is after 2026-10-01'],
    [['--method', 'last'], 'average, first in first out'],
    [['--item', 'gold'], 'Nothing called “gold” ever moved'],
  ])('refuses %j', async (options, says) => {
    const { exitCode, err } = await runCli(['stock', starter, ...options]);
    expect(exitCode).toBe(2);
    expect(err).toContain(says);
  });

  it('says how to begin where nothing has happened', async () => {
    const { exitCode, err } = await inFreshFolder(async (folder) => {
      const book = new Map([...tradeBook({})].filter(([file]) => file !== 'stocktakes.csv'));
      return runCli(['stock', writeBook(join(folder, 'book'), book)]);
    });
    expect(exitCode).toBe(1);
    expect(err).toContain('Begin with an opening balance');
  });

  it('names the row of a slip in what happened', async () => {
    const { exitCode, err } = await ofTrade({
      used: [['2026-01-01', 'thing', 1, 'made', '']],
      sales: [['2026-01-02', 'shop', 'thing', 2, -5]],
    });
    expect(exitCode).toBe(1);
    expect(err).toContain('used.csv, row 2, column reason');
    expect(err).toContain('sales.csv, row 2, column takings');
  });

  it('check reads what happened too: slips of it, and stock below nothing', async () => {
    const told = async (trade: Trade) =>
      inFreshFolder(async (folder) => runCli(['check', writeBook(join(folder, 'book'), tradeBook(trade))]));
    const slip = await told({ sales: [['2026-01-02', 'shop', 'thing', 2, -5]] });
    expect(slip.exitCode).toBe(1);
    expect(slip.out).toContain('sales.csv, row 2, column takings: Pieces and takings have opposite signs.');
    const short = await told({ sales: [['2026-01-02', 'shop', 'thing', 2, 5]] });
    expect(short.exitCode).toBe(0);
    expect(short.out).toContain('thing went below nothing on 2026-01-02, by 2.');
    expect((await runCli(['check', starter])).out).not.toContain('below nothing');
  });

  it('a product that is made no more stops stock and check, and no price', async () => {
    const gone = { sales: [['2026-01-02', 'shop', 'old thing', 2, 5]] };
    await inFreshFolder(async (folder) => {
      const path = writeBook(join(folder, 'book'), tradeBook(gone));
      expect((await runCli(['price', path])).exitCode).toBe(0);
      for (const command of ['check', 'stock', 'variance']) {
        const { exitCode, out, err } = await runCli([command, path]);
        expect(exitCode).toBe(1);
        expect(out + err).toContain('sales.csv, row 2, column product: “old thing” is not in products.');
      }
    });
  });
});
