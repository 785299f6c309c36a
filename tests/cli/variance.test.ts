import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { VarianceReport } from '../../engine/export/answers/varianceReport.ts';
import { stockBook } from '../../engine/stockBook.ts';
import { sourceOf } from '../support/books.ts';
import { writeBook } from '../support/plainBook.ts';
import { inFreshFolder, runCli } from '../support/runCli.ts';
import { tradeBook } from '../support/tradeBook.ts';

const starter = 'templates/books/starter';
const metric = 'templates/books/metric';

describe('sennit variance', () => {
  it.each([starter, metric])('shows variances in 80 columns: %s', async (book) => {
    const { out, exitCode } = await runCli(['variance', book]);
    expect(exitCode).toBe(0);
    for (const line of out.split('\nNext:')[0]?.split('\n') ?? [])
      expect(line.length).toBeLessThanOrEqual(80);
    expect(out).toMatch(
      /^Materials and labour from 2026-10-01 to 2026-10-31\s+were [\d.,]+ (USD|EUR) above\s+plan/,
    );
    expect(out.match(/^All /gm)).toHaveLength(2);
  });

  it('adds up to the coin: by reason, by material, by product', async () => {
    const cents = (value: number): number => Math.round(value * 100);
    const sum = (values: readonly number[]): number => values.reduce((so, each) => so + cents(each), 0);
    for (const book of [starter, metric]) {
      const { out } = await runCli(['variance', book, '--json']);
      const { totals, materials, products, use, materialTotals, productTotals } = JSON.parse(
        out,
      ) as VarianceReport;
      const { price, usage, lost, wageRate, efficiency, total } = totals;
      expect(sum([price, usage, lost, wageRate, efficiency])).toBe(cents(total));
      expect(sum(materials.map((each) => each.total))).toBe(cents(materialTotals.total));
      expect(sum(products.map((each) => each.total))).toBe(cents(productTotals.total));
      expect(sum(use.map((each) => each.usage))).toBe(cents(usage));
      expect(sum(products.map((each) => each.usage))).toBe(cents(usage));
      for (const each of materials) {
        expect(cents(each.paid) - cents(each.planned)).toBe(cents(each.price));
        expect(sum([each.price, each.usage, each.lost])).toBe(cents(each.total));
      }
      for (const each of products)
        expect(cents(each.labour) - cents(each.plannedLabour)).toBe(sum([each.wageRate, each.efficiency]));
    }
  });

  it('adds up whatever happened', () => {
    const figure = (most: number): fc.Arbitrary<number> =>
      fc.integer({ min: 1, max: most }).map((each) => each / 100);
    fc.assert(
      fc.property(
        figure(9999),
        figure(999),
        figure(99_999),
        figure(9999),
        figure(999),
        figure(5000),
        (price, each, paid, bought, hours, wage) => {
          const book = tradeBook({
            blankPrice: price,
            blanksEach: each,
            wastePercent: 3,
            wage: 17.35,
            minutes: 7,
            overhead: 100,
            hours: 9,
            purchases: [['2019-03-15', 'A', 'blank', bought, paid]],
            made: [['2019-03-15', 'thing', 7, hours, wage]],
            used: [['2019-03-20', 'blank', bought, 'made', '']],
          });
          const { values } = stockBook(sourceOf(book));
          expect(values?.get('start', 'sums', 0)).toBe('all well');
          const total = (name: string): number =>
            Math.round((values?.number('variance_totals', name, 0) ?? Number.NaN) * 100);
          expect(total('price_variance') + total('usage_variance') + total('lost_variance')).toBe(
            total('materials_variance'),
          );
          expect(total('materials_variance') + total('rate_variance') + total('efficiency_variance')).toBe(
            total('total_variance'),
          );
        },
      ),
      { numRuns: 25 },
    );
  });

  it('says what is not written of overhead, and counts the days of a month that is only partly meant', async () => {
    const report = await inFreshFolder(async (folder) => {
      const path = writeBook(
        join(folder, 'book'),
        tradeBook({ overhead: 310, hours: 10, made: [['2019-03-15', 'thing', 1, 2, '']] }),
      );
      const { out } = await runCli(['variance', path]);
      expect(out).toContain('What was paid is not written (overheads_paid.csv).');
      return JSON.parse(
        (await runCli(['variance', path, '--json', '--from', '2019-02-15', '--to', '2019-03-10'])).out,
      ) as VarianceReport;
    });
    expect(report.overhead.months).toBeCloseTo(14 / 28 + 10 / 31, 12);
    expect(report.overhead).toMatchObject({ planned: 255, paid: null, spending: null });
  });

  it('refuses days that are none', async () => {
    const { exitCode, err } = await runCli(['variance', starter, '--from', '2026-02-30']);
    expect(exitCode).toBe(2);
    expect(err).toContain('“2026-02-30” is not a day of the calendar');
  });
});
