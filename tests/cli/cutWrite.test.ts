import { readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { CutReport, StockChange } from '../../engine/index.ts';
import { inFreshFolder, runCli } from '../support/runCli.ts';

type Written = CutReport & { readonly stockChanges: readonly StockChange[]; readonly written: boolean };

function inStarter<T>(work: (folder: string, stock: string) => Promise<T>): Promise<T> {
  return inFreshFolder(async (folder) => {
    await runCli(['new', 'mine'], { folder });
    return work(folder, join(folder, 'mine', 'stock.csv'));
  });
}

describe('sennit cut --write', () => {
  it('shows with --dry-run what it would change, and changes nothing', () =>
    inStarter(async (folder, stock) => {
      const before = readFileSync(stock);
      for (const more of [['--dry-run'], ['--dry-run', '--write']]) {
        const { exitCode, out } = await runCli(['cut', 'mine', ...more], { folder });
        expect(exitCode).toBe(0);
        expect(out).toMatch(/moss cord +2 +1 x 640 ft spool +1 x \d+ ft( \d+ in)? spool/);
        expect(out.replace(/\s+/g, ' ')).toContain('Nothing was written.');
        for (const line of out.split('\n')) expect(line.length).toBeLessThanOrEqual(80);
      }
      expect(readFileSync(stock)).toEqual(before);
    }));

  it("takes the book's own make.csv off the stock, says so, and plans from what is left the next time", () =>
    inStarter(async (folder, stock) => {
      const mossOf = ({ stockChanges }: Written): StockChange | undefined =>
        stockChanges.find(({ material }) => material === 'moss cord');
      const dry = JSON.parse(
        (await runCli(['cut', 'mine', '--dry-run', '--json'], { folder })).out,
      ) as Written;
      expect(dry.written).toBe(false);
      const [, length = ''] = /^1 x (.*) spool$/.exec(mossOf(dry)?.after ?? '') ?? [];
      const first = await runCli(['cut', 'mine', '--write'], { folder });
      expect(first.exitCode).toBe(0);
      expect(first.out.replace(/\s+/g, ' ')).toContain(
        'The same command again plans, and takes, another batch.',
      );
      const text = readFileSync(stock, 'utf8');
      expect(text).toContain(`\nmoss cord,${length},1,spool\n`);
      expect(text).toContain('\ncoal cord,9 ft 6 in,3,offcut\n');
      expect((await runCli(['check', 'mine'], { folder })).exitCode).toBe(0);
      const second = await runCli(['cut', 'mine', '--write', '--json'], { folder });
      const report = JSON.parse(second.out) as Written;
      expect(report.written).toBe(true);
      expect(mossOf(report)?.before).toBe(`1 x ${length} spool`);
      expect(mossOf(report)?.after).not.toBe(mossOf(report)?.before);
    }));

  it('makes stock.csv where there is none, and keeps the character set of one that there is', () =>
    inStarter(async (folder, stock) => {
      const text = readFileSync(stock, 'utf8').replaceAll('\n', '\r\n');
      writeFileSync(stock, Buffer.from(`\uFEFF${text}`, 'utf16le'));
      expect((await runCli(['cut', 'mine', 'wrist small=1', '--write'], { folder })).exitCode).toBe(0);
      const after = readFileSync(stock).toString('utf16le');
      expect(after).toMatch(/^\uFEFFmaterial,length,count,kind\r\nmoss cord,63\d ft( \d+ in)?,1,spool\r\n/);
      rmSync(stock);
      expect((await runCli(['cut', 'mine', 'wrist small=1', '--write'], { folder })).exitCode).toBe(0);
      // A hundred feet of coal were bought at their own price, which is not that of the thousand in materials.csv.
      expect(readFileSync(stock, 'utf8')).toMatch(
        /^material,length,count,kind,cost_set\nmoss cord,99\d ft( \d+ in)?,1,spool,\ncoal cord,9\d ft( \d+ in)?,1,spool,0\.097\nsmall buckle,99,1,box,\n/,
      );
    }));

  it('writes nothing where not everything can be cut, where it was stopped, or where the plan is of an older stock', () =>
    inStarter(async (folder, stock) => {
      const before = readFileSync(stock);
      const stopped = await runCli(['cut', 'mine', '--write', '--time', '0'], { folder });
      expect(stopped.out.replace(/\s+/g, ' ')).toContain(
        'Nothing was written, as the search was stopped early.',
      );
      expect(readFileSync(stock)).toEqual(before);

      const changed = await runCli(['cut', 'mine', '--write'], {
        folder,
        progress: () => writeFileSync(stock, 'material,length\n'),
      });
      expect(changed.exitCode).toBe(1);
      expect(changed.err).toContain('stock.csv was changed while the plan was made; nothing was written.');
      expect(readFileSync(stock, 'utf8')).toBe('material,length\n');

      writeFileSync(stock, before);
      const materials = join(folder, 'mine', 'materials.csv');
      const text = readFileSync(materials, 'utf8');
      writeFileSync(materials, text.replace(/^(cream cord,.*?)"1,000 ft"/m, '$11 ft'));
      const short = await runCli(['cut', 'mine', 'camera slim=1', '--write', '--json'], { folder });
      expect(short.exitCode).toBe(1);
      expect((JSON.parse(short.out) as Written).written).toBe(false);
      expect(readFileSync(stock)).toEqual(before);
    }));

  it('asks for something to make where neither the line nor the book says', () =>
    inStarter(async (folder) => {
      rmSync(join(folder, 'mine', 'make.csv'));
      const { exitCode, out, err } = await runCli(['cut', 'mine'], { folder });
      expect([exitCode, out]).toEqual([2, '']);
      expect(err).toContain('Nothing to make was given.');
      expect(err).toContain('fob short=12');
    }));

  it('leaves make.csv alone where the line names what to make', () =>
    inStarter(async (folder) => {
      const { out } = await runCli(['cut', 'mine', 'fob short=3', '--json'], { folder });
      expect((JSON.parse(out) as CutReport).make).toEqual([{ product: 'fob short', quantity: 3 }]);
    }));
});
