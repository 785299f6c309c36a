import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import * as sennit from '../../library/index.ts';
import { readBookFolder } from '../../library/node.ts';
import { demoBooks } from '../support/books.ts';
import { inFreshFolder, runCli } from '../support/runCli.ts';
import { loadedSolver } from '../support/solverForTests.ts';

const folderOf = (name: string): string => join('templates', 'books', name);

/** What a command prints as JSON, which is what its question must give. */
async function asked(...args: readonly string[]): Promise<unknown> {
  const { out } = await runCli([...args, '--json']);
  return JSON.parse(out);
}

/** As JSON carries it: what is left out and what is undefined are one. */
const plain = (value: unknown): unknown => JSON.parse(JSON.stringify(value));

describe.each(demoBooks)('the library says of the book %s what the command line says', (name) => {
  const folder = folderOf(name);
  const book = readBookFolder(folder);
  const channel = sennit.priceBook(book).result?.channels.at(-1)?.channel ?? '';

  it('of its prices', async () => {
    const { result, problems } = sennit.priceBook(book);
    expect(result?.products.length).toBeGreaterThan(5);
    expect(plain(result)).toEqual(await asked('price', folder));
    expect(plain(problems)).toEqual(plain(result?.problems));
  });

  it('of what is to be looked at', async () => {
    const problems = sennit.checkBook(book);
    expect(plain({ wellFormed: !sennit.hasErrors(problems), problems })).toEqual(
      await asked('check', folder),
    );
  });

  it('of its scenarios and of a change', async () => {
    expect(plain(sennit.whatIf(book, {}).result)).toEqual(await asked('whatif', folder));
    const changes = ['cord +12 %', 'wage +5 %'];
    expect(plain(sennit.whatIf(book, { changes }).result)).toEqual(await asked('whatif', folder, ...changes));
  });

  it('of a price list', async () => {
    const { result } = sennit.listPrices(book, { channel, validFrom: '2026-12-01' });
    expect(plain({ lists: [result] })).toEqual(
      await asked('pricelist', folder, '--channel', channel, '--valid-from', '2026-12-01'),
    );
  });

  it('of a cutting plan by its own make.csv', async () => {
    const { result } = await sennit.planCutting(book, { solver: loadedSolver });
    expect(result?.cords.length).toBeGreaterThan(0);
    expect(plain(result)).toEqual(await asked('cut', folder));
  });

  it('in a workbook, byte for byte', () =>
    inFreshFolder(async (into) => {
      const date = '2026-11-25';
      const plainFile = join(into, 'mine.ods');
      await runCli(['workbook', folder, '--no-batch', '--out', plainFile]);
      const { result: bytes } = await sennit.writeWorkbook(book, { date, format: 'ods' });
      expect(Buffer.from(bytes ?? []).equals(readFileSync(plainFile))).toBe(true);
      const file = join(into, 'batch.xlsx');
      await runCli(['workbook', folder, '--out', file]);
      const { result: cutting } = await sennit.planCutting(book, {
        solver: loadedSolver,
      });
      const { result } = await sennit.writeWorkbook(book, { date, ...(cutting && { cutting }) });
      expect(Buffer.from(result ?? []).equals(readFileSync(file))).toBe(true);
    }));

  it('in the file of a price list, byte for byte', () =>
    inFreshFolder(async (into) => {
      for (const format of ['csv', 'html', 'xlsx'] as const) {
        const file = join(into, `list.${format}`);
        await runCli(['pricelist', folder, '--channel', channel, '--out', file]);
        const choice = { channel, validFrom: '2026-11-25', format };
        const { result } = await sennit.writePriceList(book, choice);
        expect(Buffer.from(result ?? []).equals(readFileSync(file))).toBe(true);
      }
    }));

  it('and the shipped book of that name is that folder', () => {
    const shipped = sennit.starterBook(name as 'starter' | 'metric');
    expect(shipped).toEqual(Object.fromEntries(book));
    expect(sennit.priceBook(shipped)).toEqual(sennit.priceBook(book));
  });
});

describe('the cord of one piece', () => {
  it.each([
    [{ length: '7 in' }, ['--length', '7 in']],
    [
      { measure: '16 cm', ease: '1 cm', hardware: '2 cm', layers: 2, coreStrands: 4, takeUp: 5.2 },
      '--measure,16 cm,--ease,1 cm,--hardware,2 cm,--layers,2,--core,4,--take-up,5.2'.split(','),
    ],
    [
      {
        length: '8 in',
        hitches: 2,
        bar: '1/4 in',
        spare: '10 in',
        chanceOfShortPercent: 5,
        diameter: '3 mm',
      },
      '--length,8 in,--hitches,2,--bar,1/4 in,--spare,10 in,--chance,5,--diameter,3 mm'.split(','),
    ],
    [
      {
        length: '40 cm',
        weave: 'round braid 8',
        colours: { over: 'tar', under: 'sand' },
        cutStep: '5 mm',
        trim: '0 mm',
      },
      '--length,40 cm,--weave,round braid 8,--colours,over=tar|under=sand,--step,5 mm,--trim,0 mm'
        .split(',')
        .map((each) => each.replace('|', ', ')),
    ],
  ] as const)('is what sennit cord says: %j', async (piece, args) => {
    expect(plain(sennit.cordOfPiece(piece).result)).toEqual(await asked('cord', ...args));
  });

  it('knows every weave by name', async () => {
    expect(sennit.weaveNames()).toContain('bar');
    for (const weave of sennit.weaveNames())
      expect(sennit.cordOfPiece({ length: '30 cm', weave }).result).not.toBeNull();
  });
});
