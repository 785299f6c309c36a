import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { VarianceReport } from '../../engine/export/answers/varianceReport.ts';
import { writeBook } from '../support/plainBook.ts';
import { inFreshFolder, runCli } from '../support/runCli.ts';
import { type Trade, tradeBook } from '../support/tradeBook.ts';

/** What the program says of a book, by its real command. */
async function variance(trade: Trade, ...options: string[]): Promise<VarianceReport> {
  return inFreshFolder(async (folder) => {
    const path = writeBook(join(folder, 'book'), tradeBook(trade));
    const { out, err, exitCode } = await runCli(['variance', path, '--json', ...options]);
    expect(err).toBe('');
    expect(exitCode).toBe(0);
    return JSON.parse(out) as VarianceReport;
  });
}

const day = '2019-03-15';

// Numbers of: OpenStax, Principles of Accounting, Volume 2: Managerial Accounting (Franklin, Graybeal, Cooper; Rice
// University 2019), sections 8.2 and 8.3, licence CC BY-NC-SA 4.0: figures only. Positive is unfavourable, there as here.
describe('materials (section 8.2)', () => {
  it.each([
    ['20 bought at 6 instead of 7', 120, -20],
    ['20 bought at 9 instead of 7', 180, 40],
  ])('price: %s', async (_, amount, price) => {
    const { totals } = await variance({ blankPrice: 7, purchases: [[day, 'A', 'blank', 20, amount]] });
    expect(totals).toMatchObject({ price, usage: 0, lost: 0, total: price });
  });

  it.each([
    [0.2, -0.35],
    [0.5, 1.75],
  ])('quantity: %d taken instead of 0.25 at 7', async (taken, usage) => {
    const { totals, materials } = await variance({
      blankPrice: 7,
      blanksEach: 0.25,
      stocktakes: [['2019-03-01', 'blank', 1, 7]],
      made: [[day, 'thing', 1, '', '']],
      used: [[day, 'blank', taken, 'made', '']],
    });
    expect(totals).toMatchObject({ price: 0, usage, total: usage });
    expect(materials.find(({ material }) => material === 'blank')?.word).toBe(
      usage > 0 ? 'above plan' : 'below plan',
    );
  });

  it('in all: 0.50 at 9 instead of 0.25 at 7 is 1.00 by price and 1.75 by quantity', async () => {
    const { totals } = await variance({
      blankPrice: 7,
      blanksEach: 0.25,
      purchases: [[day, 'A', 'blank', 0.5, 4.5]],
      made: [[day, 'thing', 1, '', '']],
      used: [[day, 'blank', 0.5, 'made', '']],
    });
    expect(totals).toMatchObject({ price: 1, usage: 1.75, total: 2.75 });
  });

  it('bottles: 11,000 of 8 at 0.85 planned, 89,000 bought for 74,760: -890, 850, -40', async () => {
    const { totals, use } = await variance({
      blankPrice: 0.85,
      blanksEach: 8,
      purchases: [[day, 'A', 'blank', 89_000, 74_760]],
      made: [[day, 'thing', 11_000, '', '']],
      used: [[day, 'blank', 89_000, 'made', '']],
    });
    expect(totals).toMatchObject({ price: -890, usage: 850, total: -40 });
    expect(use.find(({ material }) => material === 'blank')).toMatchObject({
      normal: 88_000,
      taken: 89_000,
      usage: 850,
    });
  });
});

describe('labour (section 8.3): one box planned at 0.10 hours and 8.00 an hour', () => {
  it.each([
    ['paid 7.50', 0.1, 7.5, -0.05, 0],
    ['paid 9.50', 0.1, 9.5, 0.15, 0],
    ['0.05 hours', 0.05, 8, 0, -0.4],
    ['0.20 hours', 0.2, 8, 0, 0.8],
    ['0.20 hours, paid 9.50', 0.2, 9.5, 0.3, 0.8],
  ])('%s', async (_, hours, wage, wageRate, efficiency) => {
    const { totals, products } = await variance({
      wage: 8,
      minutes: 6,
      made: [[day, 'thing', 1, hours, wage]],
    });
    expect(totals.wageRate).toBe(wageRate);
    expect(totals.efficiency).toBe(efficiency);
    expect(totals.total).toBeCloseTo(wageRate + efficiency, 9);
    expect(products[0]).toMatchObject({ product: 'thing', standardHours: 0.1, wageRate, efficiency });
  });
});

// The same book, section 4.6: over- and underapplied overhead.
describe('overhead at a rate set beforehand (section 4.6)', () => {
  it.each([
    ['256,500 paid, 250,000 applied', 250_000, 100_000, 100_000, 256_500, 250_000, 6500],
    ['248,000 paid, 250,000 applied', 250_000, 100_000, 100_000, 248_000, 250_000, -2000],
    ['209,250 paid, 33.50 x 6,240 hours applied', 33_500, 1000, 6240, 209_250, 209_040, 210],
  ])('%s', async (_, overhead, hours, worked, paid, absorbed, notAbsorbed) => {
    const report = await variance(
      {
        overhead,
        hours,
        made: [[day, 'thing', 1, worked, '']],
        more: { 'overheads_paid.csv': `date,overhead,amount\n2019-03-20,all,${paid}\n` },
      },
      ...['--from', '2019-03-01', '--to', '2019-03-31'],
    );
    expect(report.overhead).toMatchObject({ months: 1, planned: overhead, absorbed, paid, notAbsorbed });
    expect(report.overhead.spending).toBe(paid - overhead);
    expect(report.overhead.idle).toBe(overhead - absorbed);
  });
});
