import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { CutReport } from '../../engine/index.ts';
import { inFreshFolder, runCli } from '../support/runCli.ts';

const starter = 'templates/books/starter';
const metric = 'templates/books/metric';

describe('sennit cut', () => {
  it('says cord by cord what to cut from what, what is missing, and what to buy', async () => {
    const { exitCode, out, err } = await runCli(['cut', starter, 'wrist medium=24', 'collar large=6']);
    expect(exitCode).toBe(0);
    expect(err).toBe('');
    expect(out.split('\n')[0]).toMatch(
      /^\d+ pieces of \d cords to cut; buy \d+ packs for [\d.]+ USD; waste [\d.]+ %\.$/,
    );
    expect(out).toContain('24 x 49 in (4 ft 1 in): wrist medium over');
    expect(out).toContain('1 x 640 ft spool (on hand): 24 x 49 in + 24 x 17 in, left 508 ft');
    expect(out).toMatch(/Stock on hand alone leaves .* missing\./s);
    expect(out).toContain('Proven: no plan opens less stock.');
    expect(out).toMatch(/Total, landed +[\d.]+/);
    for (const line of out.split('\n')) expect(line.length).toBeLessThanOrEqual(80);
  });

  it('speaks the units of a metric book', async () => {
    const product = /^([^;,\n]+)/m.exec(
      (await import('../support/books.ts')).demoBook('metric').get('products.csv')?.split('\n')[1] ?? '',
    )?.[1];
    const { exitCode, out } = await runCli(['cut', metric, `${product}=10`]);
    expect(exitCode).toBe(0);
    expect(out).toMatch(/\d x [\d,]+ cm/);
    expect(out).not.toMatch(/ ft| in\b\)/);
  });

  it('reads what to make from a table, and adds what the line says', () =>
    inFreshFolder(async (folder) => {
      writeFileSync(join(folder, 'market.csv'), 'product,quantity\nlead long,4\nfob short,10\n');
      const book = join(process.cwd(), starter);
      const { exitCode, out } = await runCli(
        ['cut', book, 'lead long=2', '--make', 'market.csv', '--keep', '18 in', '--json'],
        { folder },
      );
      expect(exitCode).toBe(0);
      const report = JSON.parse(out) as CutReport;
      expect(report.make).toEqual([
        { product: 'lead long', quantity: 6 },
        { product: 'fob short', quantity: 10 },
      ]);
      expect(report.keepMm).toBeCloseTo(457.2, 9);
      expect(report.proven).toBe(true);
      expect(report.stopped).toBe(false);
    }));

  it('shows the best plan so far when time is over or the user interrupts', async () => {
    const timed = await runCli(['cut', starter, 'lead long=30', '--time', '0']);
    expect(timed.exitCode).toBe(0);
    expect(timed.out).toContain('to cut;');
    let restored = false;
    const { exitCode, out } = await runCli(['cut', starter, 'lead long=30'], {
      onInterrupt: (stop) => {
        stop();
        return () => {
          restored = true;
        };
      },
    });
    expect(exitCode).toBe(0);
    expect(out).toContain('Stopped early: this is the best plan so far.');
    expect(restored).toBe(true);
  });

  it('tells how far it is only where that is wanted', async () => {
    const told: string[] = [];
    await runCli(['cut', starter, 'lead long=30'], { progress: (text) => told.push(text) });
    expect(told.some((text) => text.startsWith('Cutting rust cord'))).toBe(true);
    expect(told.at(-1)).toBe('');
  });

  it.each([
    [['cut', starter, 'lead long'], '“lead long” is not a product and a whole number.', 'lead long=24'],
    [
      ['cut', starter, 'fob short=2', 'lead', 'long=3'],
      '“lead long=3” came as several words',
      'Write "lead long=3".',
    ],
    [['cut', starter, 'lead lng=3'], 'There is no product “lead lng”', 'lead long'],
    [['cut', starter, 'Wrist=3'], '“Wrist” comes in sizes', 'wrist small, wrist medium, wrist large'],
    [['cut', starter, 'lead long=10001'], 'more than 10000 of one product', 'in batches'],
    [['cut', starter, 'lead long=3', '--keep', 'arm'], '--keep “arm” is not a length.', '18 in'],
    [['cut', starter, 'lead long=3', '--cut-loss', '-1 in'], '--cut-loss “-1 in” is not a length.', '18 in'],
    [['cut', starter, 'lead long=3', '--time', 'soon'], '--time “soon” is not a number of seconds', '30'],
  ])('refuses %j with exit code 2 and a way to mend it', async (args, message, mend) => {
    const { exitCode, out, err } = await runCli(args);
    expect(exitCode).toBe(2);
    expect(out).toBe('');
    expect(err).toContain(message);
    expect(err).toContain(mend);
  });

  it('tells what is wrong with the table of what to make, and exits with 1', () =>
    inFreshFolder(async (folder) => {
      writeFileSync(join(folder, 'market.csv'), 'product,quantity\nlead lng,4\n');
      const book = join(process.cwd(), starter);
      const { exitCode, err } = await runCli(['cut', book, '--make', 'market.csv'], { folder });
      expect(exitCode).toBe(1);
      expect(err).toContain('market.csv, row 2, column product: “lead lng” is not in products.');
      const missing = await runCli(['cut', book, '--make', 'no.csv'], { folder });
      expect(missing.exitCode).toBe(1);
      expect(missing.err).toContain('no.csv could not be read');
    }));
});
