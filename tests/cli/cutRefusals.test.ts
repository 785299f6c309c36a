import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { inFreshFolder, runCli } from '../support/runCli.ts';

/** A small book: one product of webbing cut from a 5 ft pack, with one 10 ft length on hand. */
function inSmallBook<T>(partLength: string, work: (folder: string) => Promise<T>): Promise<T> {
  return inFreshFolder(async (folder) => {
    await runCli(['new', 'mine'], { folder });
    const file = (name: string): string => join(folder, 'mine', name);
    const add = (name: string, rows: string): void =>
      writeFileSync(file(name), `${readFileSync(file(name), 'utf8').trimEnd()}\n${rows}\n`);
    add('materials.csv', 'band,Band,length,,,5 ft,5.00,,,,');
    add('stock.csv', 'band,10 ft,1,spool');
    add('parts.csv', `fob short,band,${partLength}`);
    return work(folder);
  });
}

describe('what sennit cut cannot do', () => {
  it('says so without calling a piece too long that stock was long enough for', () =>
    inSmallBook('8 ft', async (folder) => {
      const { exitCode, out } = await runCli(['cut', 'mine', 'fob short=2'], { folder });
      expect(exitCode).toBe(1);
      const said = out.replace(/\s+/g, ' ');
      expect(said).toContain('longer than any pack, and no stock that is long enough is left');
      expect(said).not.toContain('longer than any stock');
      const band = said.slice(said.indexOf('band:'));
      expect(band.slice(0, band.indexOf('Fittings'))).not.toContain('above the least');
    }));

  it('prints no empty list where nothing can be cut', () =>
    inSmallBook('11 ft', async (folder) => {
      const { out } = await runCli(['cut', 'mine', 'fob short=1'], { folder });
      const band = out.slice(out.indexOf('band:'));
      expect(band.slice(0, band.indexOf('Waste'))).not.toContain('From');
    }));

  it.each([
    [['fob shrt=3'], 'Did you mean “fob short”?'],
    [['fob short=8000', 'FOB SHORT=8000'], '16000 of fob short are more than 10000'],
    [['--make', 'plan.csv'], 'plan.csv asks for nothing to be made'],
  ])('%j: %s', (args, message) =>
    inFreshFolder(async (folder) => {
      await runCli(['new', 'mine'], { folder });
      writeFileSync(join(folder, 'plan.csv'), 'product,quantity\nfob short,0\n');
      const { exitCode, err } = await runCli(['cut', 'mine', ...args], { folder });
      expect(exitCode).toBe(2);
      expect(err).toContain(message);
    }),
  );
});

describe('sennit fit', () => {
  it('leaves the book alone where the picture cannot be written', () =>
    inFreshFolder(async (folder) => {
      await runCli(['new', 'mine'], { folder });
      const weaves = join(folder, 'mine', 'weaves.csv');
      const before = readFileSync(weaves);
      const { exitCode, err } = await runCli(['fit', 'mine', '--write', '--svg', 'nowhere/x.svg'], {
        folder,
      });
      expect(exitCode).toBe(1);
      expect(err).toContain('nowhere/x.svg could not be written');
      expect(readFileSync(weaves)).toEqual(before);
    }));
});
