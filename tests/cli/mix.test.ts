import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { MixReport } from '../../engine/mix/mixReport.ts';
import { type PlainBook, plainBook, writeBook } from '../support/plainBook.ts';
import { type CliResult, inFreshFolder, runCli } from '../support/runCli.ts';

const starter = 'templates/books/starter';

function onBook(book: PlainBook, ...options: string[]): Promise<CliResult> {
  return inFreshFolder((folder) =>
    runCli(['mix', writeBook(join(folder, 'book'), plainBook(book)), ...options]),
  );
}

const thing = { product: 'thing', price: 10, cost: 4, minutes: 30, expected: 4 };

describe('sennit mix', () => {
  it('keeps within hours, promises and limits of the demo book, and beats what is expected there', async () => {
    const { out, exitCode } = await runCli(['mix', starter, '--json']);
    expect(exitCode).toBe(0);
    const report = JSON.parse(out) as MixReport;
    for (const { best, bestWhole, atLeast, atMost } of report.rows) {
      for (const made of [best, bestWhole ?? Number.NaN]) {
        expect(made).toBeGreaterThanOrEqual(atLeast);
        expect(made).toBeLessThanOrEqual(atMost ?? Number.POSITIVE_INFINITY);
      }
    }
    expect(report.limits[0]?.taken).toBeLessThanOrEqual(96 + 1e-6);
    expect(report.best.contribution).toBeGreaterThan(report.expected?.contribution ?? Number.NaN);
    expect(report.bestWhole?.contribution).toBeLessThanOrEqual(report.best.contribution + 1e-6);
    expect(report.best.profit).toBeCloseTo(report.best.contribution - report.overheadPerMonth, 9);
  });

  it('leaves prices as they are when it is given other hours', async () => {
    const each = async (...options: string[]): Promise<MixReport> =>
      JSON.parse((await runCli(['mix', starter, '--json', ...options])).out) as MixReport;
    const [usual, more] = [await each(), await each('--hours', '120')];
    expect(more.rows.map(({ contributionEach }) => contributionEach)).toEqual(
      usual.rows.map(({ contributionEach }) => contributionEach),
    );
    expect(more.limits[0]?.available).toBe(120);
    expect(more.best.contribution).toBeGreaterThan(usual.best.contribution);
  });

  it.each<[string, ...string[]]>([['as it is'], ['of all', '--all'], ['in sentences', '--plain']])(
    'fits 80 columns: %s',
    async (_, ...options) => {
      const { out } = await runCli(['mix', starter, ...options]);
      if (options.includes('--plain')) expect(out).toMatch(/^fob short \(stall\): \d/m);
      else
        for (const line of out.split('\nNext:')[0]?.split('\n') ?? [])
          expect(line.length).toBeLessThanOrEqual(80);
      expect(out).toMatch(/One more bench hour is worth [\d.]+ USD, over and above its wage/);
    },
  );

  it('takes all pairs with --all, also without a table of expected sales', async () => {
    const { expected: _, ...plain } = thing;
    const { out, exitCode } = await onBook({ hours: 10, products: [plain] }, '--all', '--json');
    expect(exitCode).toBe(0);
    const report = JSON.parse(out) as MixReport;
    expect(report.rows[0]).toMatchObject({ best: 20, expected: null, atMost: null });
    expect(report.expected).toBeNull();
  });

  it('keeps within stock where stock.csv has a row, and buys what has none', async () => {
    const book: PlainBook = {
      hours: 100,
      products: [
        { ...thing, clasps: 2 },
        { ...thing, product: 'other', price: 9 },
      ],
    };
    const report = async (clasps?: number): Promise<MixReport> => {
      const { out } = await onBook(clasps === undefined ? book : { ...book, clasps }, '--stock', '--json');
      return JSON.parse(out) as MixReport;
    };
    expect((await report()).rows.map(({ best }) => best)).toEqual([200, 0]);
    const short = await report(30);
    expect(short.rows.map(({ best }) => best)).toEqual([15, 185]);
    // A clasp turns half an `other` that brings 5 into half a `thing` that brings 6.
    expect(short.limits[1]).toMatchObject({ name: 'clasp', available: 30, taken: 30 });
    expect(short.limits[1]?.worthEach).toBeCloseTo(0.5, 8);
  });

  it('says which promises are too much, and how much is missing', async () => {
    const { err, exitCode } = await onBook({ hours: 3, products: [{ ...thing, expected: 10, atLeast: 10 }] });
    expect(exitCode).toBe(1);
    expect(err).toContain('sales_mix.csv, row 2, column at_least');
    expect(err).toContain('5 bench hours, and there are 3: 2 too few. 10 thing (shop) take 5');
  });

  it('says what is missing where nothing says what could sell', async () => {
    const { expected: _, ...plain } = thing;
    const { err, exitCode } = await onBook({ products: [plain] });
    expect(exitCode).toBe(1);
    expect(err).toContain('sales_mix.csv');
    expect(err).toContain('--all');
  });

  it('has no whole mix where a promise and its limit leave no whole number, and says so', async () => {
    const { out } = await onBook({
      hours: 9,
      products: [{ ...thing, expected: 2.5, atLeast: 2.2, atMost: 2.8 }],
    });
    expect(out).toContain('leave no mix in whole pieces');
    expect(out).toContain('2.8');
  });

  it('refuses hours that are no number', async () => {
    const { err, exitCode } = await runCli(['mix', starter, '--hours', 'many']);
    expect(exitCode).toBe(2);
    expect(err).toContain('--hours “many” is not a number of hours');
  });
});
