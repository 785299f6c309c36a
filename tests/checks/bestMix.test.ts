import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { MixReport } from '../../engine/mix/mixReport.ts';
import { type PlainBook, plainBook, writeBook } from '../support/plainBook.ts';
import { inFreshFolder, runCli } from '../support/runCli.ts';

/** What the program says of a book, by its real command. */
async function mix(book: PlainBook, ...options: string[]): Promise<MixReport> {
  return inFreshFolder(async (folder) => {
    const path = writeBook(join(folder, 'book'), plainBook(book));
    const { out, err, exitCode } = await runCli(['mix', path, '--json', ...options]);
    expect(err).toBe('');
    expect(exitCode).toBe(0);
    return JSON.parse(out) as MixReport;
  });
}

// Numbers of: OpenStax, Principles of Accounting, Volume 2: Managerial Accounting (Franklin, Graybeal, Cooper; Rice
// University 2019), section 10.6, licence CC BY-NC-SA 4.0: figures only.
describe('desks, chairs and bookcases within 80,000 hours (section 10.6)', () => {
  const book: PlainBook = {
    hours: 80_000,
    products: [
      { product: 'desk', price: 350, cost: 40 + 70 + 55, minutes: 60, expected: 60_000, atMost: 60_000 },
      { product: 'chair', price: 200, cost: 30 + 65 + 50, minutes: 30, expected: 48_000, atMost: 48_000 },
      { product: 'bookcase', price: 175, cost: 35 + 50 + 45, minutes: 15, expected: 40_000, atMost: 40_000 },
    ],
  };

  it('the book prints 48 for the bookcase; its own figures give 45, which ranks it behind the desk by the hour', async () => {
    const { rows } = await mix(book);
    expect(rows.map(({ contributionEach }) => contributionEach)).toEqual([185, 55, 45]);
    const perHour = rows.map((row) => row.contributionEach / row.benchHoursEach);
    expect(perHour.map((each) => Math.round(each * 1e9) / 1e9)).toEqual([185, 110, 180]);
  });

  it('60,000 desks, 20,000 chairs, 40,000 bookcases: 14,000,000 (derived), of 94,000 hours that demand would take', async () => {
    const report = await mix(book);
    expect(report.rows.map(({ best }) => best)).toEqual([60_000, 20_000, 40_000]);
    expect(report.rows.map(({ bestWhole }) => bestWhole)).toEqual([60_000, 20_000, 40_000]);
    expect(report.best.contribution).toBeCloseTo(14_000_000, 4);
    expect(report.limits[0]?.taken).toBeCloseTo(80_000, 6);
    expect(report.expected?.benchHours).toBeCloseTo(94_000, 6);
    // A chair takes the last hour, so an hour is worth what two chairs contribute.
    expect(report.limits[0]?.worthEach).toBeCloseTo(110, 6);
    expect(report.rows[0]?.worthOfOneMoreSold).toBeCloseTo(185 - 110, 6);
    expect(report.rows[2]?.worthOfOneMoreSold).toBeCloseTo(45 - 27.5, 6);
  });
});

describe('shorts and trousers on a cutting machine (section 10.6)', () => {
  const book = (hours: number): PlainBook => ({
    hours,
    products: [
      { product: 'shorts', price: 16, cost: 0, minutes: 15, expected: 1 },
      { product: 'trousers', price: 32, cost: 0, minutes: 24, expected: 1 },
    ],
  });

  it('trousers earn 80 an hour and shorts 64, so 100 more hours bring 250 trousers and 8,000 (derived)', async () => {
    const [before, after] = [await mix(book(400)), await mix(book(400), '--hours', '500')];
    expect(before.rows.map(({ best }) => best)).toEqual([0, 1000]);
    expect(after.rows.map(({ best }) => best)).toEqual([0, 1250]);
    expect(after.best.contribution - before.best.contribution).toBeCloseTo(8000, 6);
    expect(before.limits[0]?.worthEach).toBeCloseTo(80, 8);
    expect(before.limits[0]?.worthOfOneMore).toBeCloseTo(80, 6);
    // Shorts would have to bring a quarter of an hour's 80.
    expect(before.rows[0]?.reducedWorth).toBeCloseTo(16 - 20, 8);
  });
});
