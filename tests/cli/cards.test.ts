import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { CardReport } from '../../engine/index.ts';
import { inFreshFolder, runCli } from '../support/runCli.ts';
import { onFreshBook, writesOneFile } from '../support/writtenFile.ts';

const cards = onFreshBook('cards');

async function report(...args: readonly string[]): Promise<CardReport> {
  const { out, err } = await cards([...args, '--json']);
  expect(err).toBe('');
  return JSON.parse(out) as CardReport;
}

describe('sennit cards', () => {
  it('writes a page of every product beside the book', async () => {
    let page = '';
    const { exitCode, out, err } = await cards([], undefined, (folder) => {
      page = readFileSync(join(folder, 'mine-cards.html'), 'utf8');
      expect(readdirSync(folder).sort()).toEqual(['mine', 'mine-cards.html']);
    });
    expect({ exitCode, err }).toEqual({ exitCode: 0, err: '' });
    expect(out).toBe(
      'Wrote mine-cards.html: 32 cards, one product a page.\nOpen it in a browser and print it at 100 %.\n',
    );
    expect(page.startsWith('<!DOCTYPE html>')).toBe(true);
    expect(page.match(/<article/g)).toHaveLength(32);
    expect(page).toContain('2026-11-25');
  });

  it('takes products and families, in any capitals, in the order of the book', async () => {
    const { cards: found } = await report('lead LONG', 'wrist straps');
    expect(found.map(({ product }) => product)).toEqual([
      'wrist small',
      'wrist medium',
      'wrist large',
      'wrist stout',
      'lead long',
    ]);
    expect(found.every(({ asked }) => !asked)).toBe(true);
  });

  it('takes quantities as arguments and from a table', async () => {
    const [card] = (await report('wrist medium=30')).cards;
    expect(card).toMatchObject({ product: 'wrist medium', batchSize: 30, asked: true });
    const { out } = await cards(['wrist medium=6', 'fob short', '--make', 'market.csv', '--json'], (folder) =>
      writeFileSync(join(folder, 'market.csv'), 'product,quantity\nwrist medium,4\nlead long,2\n'),
    );
    const found = (JSON.parse(out) as CardReport).cards;
    expect(found.map(({ product, batchSize, asked }) => [product, batchSize, asked])).toEqual([
      ['fob short', 24, false],
      ['wrist medium', 10, true],
      ['lead long', 2, true],
    ]);
  });

  it('shows the same cut lengths as sennit cut cuts', async () => {
    const [card] = (await report('wrist medium=12')).cards;
    await inFreshFolder(async (folder) => {
      await runCli(['new', 'mine'], { folder });
      const { out } = await runCli(['cut', 'mine', 'wrist medium=12', '--json'], { folder });
      const plan = JSON.parse(out) as {
        cords: { material: string; cuts: { cutMm: number; pieces: number }[] }[];
      };
      const cut = plan.cords.flatMap((cord) =>
        cord.cuts.map((each) => `${each.pieces} x ${each.cutMm.toFixed(2)} of ${cord.material}`),
      );
      // The core and the over cord are of one material, cut to two lengths.
      expect(
        card?.cords.map((cord) => `${cord.batchCords} x ${cord.cutMm.toFixed(2)} of ${cord.cord}`).sort(),
      ).toEqual(cut.sort());
    });
  });

  it.each([
    [
      ['wrist mediun'],
      'There is no product and no family “wrist mediun” in this book.',
      'Did you mean “wrist medium”?',
    ],
    [['Zipper pull'], 'There is no product and no family “Zipper pull”', 'Did you mean “Zipper pulls”?'],
    [['wrist medium=some'], 'is not a product and a whole number', 'Write it as "wrist medium=24".'],
    [['wrist medium=0'], 'Nothing is to be made of any product.', 'Give a quantity above 0.'],
    [['wrist medium=20000'], 'are more than 10000 of one product', 'Plan them in batches.'],
    [['--out', 'cards.pdf'], '“cards.pdf” does not end in .html.', 'such as cards.html'],
    [['--out', '.html'], 'has an ending and no name', 'such as cards.html'],
    [['--json', '--out', 'x.html'], '--json writes no page', 'Leave out one of them.'],
  ])('refuses %j with exit code 2 and writes nothing', async (args, says, mend) => {
    const { exitCode, out, err } = await cards(args, undefined, (folder) => {
      expect(readdirSync(folder)).toEqual(['mine']);
    });
    expect({ exitCode, out }).toEqual({ exitCode: 2, out: '' });
    expect(err).toContain(says);
    expect(err).toContain(mend);
  });

  writesOneFile(cards, 'mine-cards.html', '<article');

  it('says what is wrong with the book, and with a table of what to make', async () => {
    const broken = (folder: string): void => {
      const file = join(folder, 'mine', 'products.csv');
      writeFileSync(
        file,
        readFileSync(file, 'utf8').replace(
          'fob short,Key fob,Key fobs,3 in,bar',
          'fob short,Key fob,Key fobs,3 in,bra',
        ),
      );
    };
    const { exitCode, err } = await cards([], broken, (folder) => {
      expect(readdirSync(folder)).toEqual(['mine']);
    });
    expect(exitCode).toBe(1);
    expect(err).toContain('“bra”');
    expect(err).toContain('Nothing was written.');
    const asJson = await cards(['--json'], broken);
    expect(asJson.exitCode).toBe(1);
    expect((JSON.parse(asJson.out) as { problems: unknown[] }).problems.length).toBeGreaterThan(0);
    const table = await cards(['--make', 'market.csv'], (folder) =>
      writeFileSync(join(folder, 'market.csv'), 'product,quantity\nnobody,4\n'),
    );
    expect(table.exitCode).toBe(1);
    expect(table.err).toContain('“nobody” is not in products.');
  });

  it('takes a name with an equals sign in it for the name that it is', async () => {
    const { out } = await cards(['a=b', '--json'], (folder) => {
      const file = join(folder, 'mine', 'products.csv');
      writeFileSync(
        file,
        `${readFileSync(file, 'utf8').trimEnd()}\na=b,,,,bar,,,,slate cord,,,,4 in,,,,,,,,,\n`,
      );
    });
    expect((JSON.parse(out) as CardReport).cards.map(({ product }) => product)).toEqual(['a=b']);
  });
});
