import { appendFileSync, cpSync, existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { type CliResult, inFreshFolder, runCli } from '../support/runCli.ts';

const starter = join(import.meta.dirname, '../../templates/books/starter');
const later = new Date('2027-01-15T12:00:00Z');

interface Workshop {
  readonly folder: string;
  month(...args: string[]): Promise<CliResult>;
  check(...args: string[]): Promise<CliResult>;
  path(file: string): string;
}

function workshop<T>(work: (shop: Workshop) => Promise<T>): Promise<T> {
  return inFreshFolder(async (folder) => {
    cpSync(starter, join(folder, 'book'), { recursive: true });
    const run = (...args: string[]): Promise<CliResult> => runCli(args, { folder, now: () => later });
    return work({
      folder,
      month: (...args) => run('month', 'book', ...args),
      check: (...args) => run('check', 'book', ...args),
      path: (file) => join(folder, 'book', file),
    });
  });
}

const lateSale = '2026-10-30,stall,fob long,1,9.50,,\n';
const closedOctober = 'closed/2026-10.csv';

describe('sennit month', () => {
  it('writes the workbook and the journal, and tells what is in them', () =>
    workshop(async ({ folder, month }) => {
      const { out, err, exitCode } = await month('2026-10', '--journal', 'october.csv');
      expect([exitCode, err]).toEqual([0, '']);
      expect(out).toMatch(/^October 2026: net sales [\d,.]+ USD, cost of sales/);
      expect(out).toContain('Wrote book-2026-10.xlsx');
      expect(readdirSync(folder).sort()).toEqual(['book', 'book-2026-10.xlsx', 'october.csv']);
      const lines = readFileSync(join(folder, 'october.csv'), 'utf8').trim().split('\n');
      const coins = (at: number): number =>
        lines.slice(1).reduce((sum, line) => sum + Math.round(Number(line.split(',').at(at)) * 100), 0);
      expect(coins(-3)).toBeGreaterThan(0);
      expect(coins(-3)).toBe(coins(-2));
    }));

  it('says the same as JSON and in sentences', () =>
    workshop(async ({ folder, month }) => {
      const report = JSON.parse((await month('2026-10', '--json')).out);
      expect(readdirSync(folder)).toEqual(['book']);
      expect(report).toMatchObject({
        month: '2026-10',
        currency: 'USD',
        closedOn: null,
        changedSinceClosing: [],
      });
      expect(report.debits).toBe(report.credits);
      expect(report.grossMargin).toBeCloseTo(report.netSales - report.costOfSales, 9);
      const { out } = await month('2026-10', '--plain', '--replace');
      expect(out).toContain(`gross margin ${report.grossMargin.toFixed(2)}`);
      expect(out).toMatch(/^stall: \d+ pieces sold; net/m);
    }));

  it('writes OpenDocument where it is asked for, or the name says so', () =>
    workshop(async ({ folder, month }) => {
      expect((await month('2026-10', '--as', 'ods')).exitCode).toBe(0);
      expect((await month('2026-10', '--out', 'october.ods')).exitCode).toBe(0);
      expect(readdirSync(folder).sort()).toEqual(['book', 'book-2026-10.ods', 'october.ods']);
      for (const file of ['book-2026-10.ods', 'october.ods'])
        expect(readFileSync(join(folder, file)).subarray(30, 84).toString()).toBe(
          'mimetypeapplication/vnd.oasis.opendocument.spreadsheet',
        );
      expect((await month('2026-10', '--as', 'pdf')).exitCode).toBe(2);
    }));

  it.each([
    ['2026-13', 2, 'is no month'],
    ['october', 2, 'is no month'],
    ['2026-1', 2, 'is no month'],
  ])('refuses %s', (given, code, says) =>
    workshop(async ({ folder, month }) => {
      const { err, exitCode } = await month(given);
      expect(exitCode).toBe(code);
      expect(err).toContain(says);
      expect(readdirSync(folder)).toEqual(['book']);
    }),
  );

  it('writes nothing where a file is in the way or the book has errors', () =>
    workshop(async ({ folder, month, path }) => {
      writeFileSync(join(folder, 'j.csv'), 'mine');
      expect(await month('2026-10', '--journal', 'j.csv')).toMatchObject({ exitCode: 1 });
      expect(readFileSync(join(folder, 'j.csv'), 'utf8')).toBe('mine');
      appendFileSync(path('sales.csv'), '2026-10-30,stall,nothing known,1,9.50,,\n');
      const { exitCode, err } = await month('2026-10');
      expect(exitCode).toBe(1);
      expect(err).toContain('nothing known');
      expect(err).toContain('Nothing was written.');
      expect(readdirSync(folder).sort()).toEqual(['book', 'j.csv']);
    }));

  it('has a month in which nothing happened, too', () =>
    workshop(async ({ month }) => {
      const { out, exitCode } = await month('2026-12');
      expect(exitCode).toBe(0);
      expect(out).toContain('December 2026: nothing was sold.');
      expect(out).toContain('Journal: no lines');
    }));
});

describe('a closed month', () => {
  const closed = <T>(work: (shop: Workshop) => Promise<T>): Promise<T> =>
    workshop(async (shop) => {
      expect(await shop.month('2026-10', '--close')).toMatchObject({ exitCode: 0, err: '' });
      return work(shop);
    });

  it('is kept in the book, and stays as it is where nothing changed', () =>
    closed(async ({ month, check, path }) => {
      const before = readFileSync(path(closedOctober), 'utf8');
      expect(before).toContain('month,,closed on,2027-01-15');
      const again = await month('2026-10', '--close', '--replace');
      expect(again.exitCode).toBe(0);
      expect(again.out.replace(/\s+/g, ' ')).toContain(
        'was closed on 2027-01-15, and its figures are the same',
      );
      expect(readFileSync(path(closedOctober), 'utf8')).toBe(before);
      expect((await check()).out).not.toContain('closed/');
    }));

  it('that changed is told figure by figure and not written, by check as something to look at', () =>
    closed(async ({ folder, month, check, path }) => {
      const before = readFileSync(path(closedOctober), 'utf8');
      appendFileSync(path('sales.csv'), lateSale);
      const { exitCode, err } = await month('2026-10', '--out', 'again.xlsx');
      expect(exitCode).toBe(1);
      expect(err).toMatch(
        /October 2026, journal: the credit of “2026-10-31, Sales, stall: sales” was closed as [\d.]+ and is [\d.]+ now/,
      );
      expect(err).toMatch(/finished goods: the quantity of “fob long” was closed as \d+ and is \d+ now/);
      expect(err).toContain('Nothing was written.');
      expect(existsSync(join(folder, 'again.xlsx'))).toBe(false);
      const { changedSinceClosing } = JSON.parse((await month('2026-10', '--json', '--close')).out);
      expect(changedSinceClosing).toContainEqual(
        expect.objectContaining({ part: 'finished goods', name: 'fob long', figure: 'quantity' }),
      );
      expect(readFileSync(path(closedOctober), 'utf8')).toBe(before);
      const checked = await check();
      expect(checked.exitCode).toBe(0);
      expect(checked.out).toContain('Look: closed/2026-10.csv: October 2026, journal');
    }));

  it('hands its closing stock to the next, which shows what changed since apart', () =>
    closed(async ({ month, path }) => {
      const stock = async () => JSON.parse((await month('2026-11', '--json', '--replace')).out);
      const before = await stock();
      appendFileSync(path('sales.csv'), lateSale);
      const after = await stock();
      expect(after.finishedGoods.opening).toBe(before.finishedGoods.opening);
      expect(before.finishedGoods.changedSinceClosing).toBe(0);
      expect(after.finishedGoods.changedSinceClosing).toBeLessThan(0);
      expect(after.finishedGoods.closing).toBeCloseTo(
        after.finishedGoods.opening + after.finishedGoods.changedSinceClosing,
        9,
      );
      expect(after.debits).toBe(after.credits);
      expect(after.problems).toContainEqual(
        expect.objectContaining({ code: 'month-closed', severity: 'watch', where: { file: closedOctober } }),
      );
    }));

  it('opens again only by its name said once more, keeps what was closed, and can be closed anew', () =>
    closed(async ({ month, path }) => {
      const before = readFileSync(path(closedOctober), 'utf8');
      appendFileSync(path('sales.csv'), lateSale);
      const wrong = await month('2026-10', '--reopen', 'yes', '--replace');
      expect(wrong.exitCode).toBe(2);
      expect(wrong.err).toContain('--reopen 2026-10');
      const { exitCode } = await month('2026-10', '--reopen', '2026-10', '--close', '--replace');
      expect(exitCode).toBe(0);
      const kept = readdirSync(path('closed')).sort();
      expect(kept).toEqual(['2026-10 opened 2027-01-15.csv', '2026-10.csv']);
      expect(readFileSync(path('closed/2026-10 opened 2027-01-15.csv'), 'utf8')).toBe(before);
      expect(readFileSync(path(closedOctober), 'utf8')).not.toBe(before);
      expect((await month('2026-10', '--replace')).exitCode).toBe(0);
    }));

  it('stays closed while a later one is, and is not opened where it was open', () =>
    closed(async ({ month, path }) => {
      expect((await month('2026-11', '--close')).exitCode).toBe(0);
      const { err, exitCode } = await month('2026-10', '--reopen', '2026-10', '--replace');
      expect(exitCode).toBe(1);
      expect(err).toContain('closed/2026-11.csv');
      expect((await month('2026-09', '--reopen', '2026-09')).err).toContain('is not closed');
      expect(readdirSync(path('closed')).sort()).toEqual(['2026-10.csv', '2026-11.csv']);
    }));

  it('must be over', () =>
    workshop(async ({ month, path }) => {
      const { err, exitCode } = await month('2027-01', '--close');
      expect(exitCode).toBe(1);
      expect(err).toContain('January 2027 is not over');
      expect(existsSync(path('closed'))).toBe(false);
    }));

  it('whose file was changed by hand is not believed', () =>
    closed(async ({ month, check, path }) => {
      writeFileSync(
        path(closedOctober),
        readFileSync(path(closedOctober), 'utf8').replace('debit,', 'debit,1'),
      );
      for (const id of ['2026-10', '2026-11']) {
        const { err, exitCode } = await month(id, '--replace');
        expect(exitCode).toBe(1);
        expect(err).toContain('closed/2026-10.csv: This file was changed after the month was closed.');
      }
      expect(await check()).toMatchObject({ exitCode: 0 });
      expect((await check()).out).toContain('This file was changed after the month was closed.');
    }));
});
