import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { BreakEvenReport } from '../../engine/export/answers/breakEvenReport.ts';
import { plainBook, writeBook } from '../support/plainBook.ts';
import { inFreshFolder, runCli } from '../support/runCli.ts';

const starter = 'templates/books/starter';
const metric = 'templates/books/metric';

async function report(...args: string[]): Promise<BreakEvenReport> {
  const { out, err, exitCode } = await runCli(['breakeven', ...args, '--json']);
  expect(err).toBe('');
  expect(exitCode).toBe(0);
  return JSON.parse(out) as BreakEvenReport;
}

describe('sennit breakeven', () => {
  it.each([starter, metric])(
    'shows the expected sales and every product alone in 80 columns: %s',
    async (book) => {
      const { out, exitCode } = await runCli(['breakeven', book]);
      expect(exitCode).toBe(0);
      for (const line of out.split('\nNext:')[0]?.split('\n') ?? [])
        expect(line.length).toBeLessThanOrEqual(80);
      expect(out.split('\n')[0]).toMatch(/^Overhead [\d.,]+ (USD|EUR) a month; the expected sales pay it at/);
      expect(out).toMatch(/Margin\s+of\s+safety/);
    },
  );

  it('shows one product in one channel, by any capitals', async () => {
    const { out } = await runCli(['breakeven', starter, '--product', 'Wrist Medium', '--channel', 'STALL']);
    expect(out).toMatch(/^wrist medium +stall +4\.62/m);
    expect(out).not.toContain('fob short');
  });

  it('tells the same in sentences', async () => {
    const { out } = await runCli(['breakeven', starter, '--plain', '--channel', 'stall']);
    expect(out).toMatch(
      /^wrist medium \(stall\): contributes 4\.62 each; break-even at 170 pieces, takings/m,
    );
  });

  it('pays the overhead exactly at break-even', async () => {
    const { pairs, mix, overheadPerMonth } = await report(starter);
    for (const { contributionEach, breakEven } of pairs)
      expect((breakEven.pieces ?? 0) * contributionEach).toBeCloseTo(overheadPerMonth, 6);
    expect((mix?.breakEven.share ?? 0) * (mix?.contribution ?? 0)).toBeCloseTo(overheadPerMonth, 6);
  });

  it('holds every asking price where it is given another overhead', async () => {
    const [usual, dearer] = [await report(starter), await report(starter, '--overhead', '1,566')];
    expect(dearer.overheadPerMonth).toBe(1566);
    expect(dearer.pairs.map(({ netEach, contributionEach }) => [netEach, contributionEach])).toEqual(
      usual.pairs.map(({ netEach, contributionEach }) => [netEach, contributionEach]),
    );
    expect(dearer.mix?.breakEven.share).toBeCloseTo(2 * (usual.mix?.breakEven.share ?? 0), 9);
  });

  it('reads its figures in the notation of the book', async () => {
    expect((await report(metric, '--profit', '1.250,50')).wantedProfitPerMonth).toBe(1250.5);
  });

  it('says “none” where pieces contribute nothing, and of expected sales that do not', async () => {
    await inFreshFolder(async (folder) => {
      const loss = { product: 'thing', price: 3, cost: 4, expected: 10 };
      const book = writeBook(join(folder, 'book'), plainBook({ overhead: 50, products: [loss] }));
      const { out } = await runCli(['breakeven', book]);
      expect(out).toMatch(/no\s+number\s+of\s+them\s+pays\s+it/);
      expect(out).toContain('none');
      const told = await report(book);
      expect(told.mix).toMatchObject({ profit: -60, marginOfSafety: null });
      expect(told.pairs[0]?.breakEven).toEqual({
        pieces: null,
        piecesWhole: null,
        takings: null,
        benchHours: null,
        withinHours: null,
      });
    });
  });

  it.each([
    ['--profit', 'much'],
    ['--profit', '-5'],
    ['--profit-tax', '100'],
    ['--overhead', '-1'],
  ])('refuses %s %s and names the option', async (option, value) => {
    const { err, exitCode } = await runCli(['breakeven', starter, `${option}=${value}`]);
    expect(exitCode).toBe(2);
    expect(err).toContain(`${option}: `);
    expect(err).toContain('Accepted:');
  });

  it('names what there is where a product or channel is not', async () => {
    const { err, exitCode } = await runCli(['breakeven', starter, '--channel', 'shop']);
    expect(exitCode).toBe(2);
    expect(err).toContain('stall, online, wholesale');
  });
});
