import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { PriceList } from '../../engine/index.ts';
import { inFreshFolder, runCli } from '../support/runCli.ts';
import { onFreshBook } from '../support/writtenFile.ts';
import { writtenBook } from '../support/xlsxParts.ts';

const pricelist = onFreshBook('pricelist');

/** Changes a table of the book. */
function edit(folder: string, table: string, change: (text: string) => string): void {
  const file = join(folder, 'mine', table);
  writeFileSync(file, change(readFileSync(file, 'utf8')));
}

describe('sennit pricelist', () => {
  it('writes a page for each channel beside the book, valid from today', async () => {
    const { exitCode, out, err } = await pricelist([], undefined, (folder) => {
      expect(readdirSync(folder).sort()).toEqual([
        'mine',
        'mine-prices-online.html',
        'mine-prices-stall.html',
        'mine-prices-wholesale.html',
      ]);
      const page = readFileSync(join(folder, 'mine-prices-wholesale.html'), 'utf8');
      expect(page.startsWith('<!DOCTYPE html>')).toBe(true);
      expect(page).toContain('Valid from 25 November 2026');
      expect(page).toContain('<h1>Line sheet</h1>');
      expect(readFileSync(join(folder, 'mine-prices-stall.html'), 'utf8')).toContain('<h1>Price list</h1>');
    });
    expect({ exitCode, err }).toEqual({ exitCode: 0, err: '' });
    expect(
      out,
    ).toBe(`Wrote mine-prices-stall.html: price list, 24 products in 31 sizes, with prices from 3 pieces.
Wrote mine-prices-online.html: price list, 24 products in 31 sizes.
Wrote mine-prices-wholesale.html: line sheet, 24 products in 31 sizes, with prices from 12, 24, 48 pieces.
2 prices under the floor; sennit check says which.
Local rules say how prices must stand to tax and what a list has to name; ask a licensed professional.
`);
  });

  it('writes what --out ends in, or what --as says', async () => {
    await pricelist(['--channel', 'STALL', '--out', 'prices.csv'], undefined, (folder) => {
      expect(readFileSync(join(folder, 'prices.csv'), 'utf8')).toContain(
        'Zipper pulls,Zipper pull,With a cord lock.,2 in,,8.00,7.20,',
      );
    });
    const { out } = await pricelist(
      ['--channel', 'Shops along the river', '--as', 'XLSX', '--valid-from', '2027-02-28'],
      undefined,
      (folder) => {
        const book = writtenBook(readFileSync(join(folder, 'mine-prices-wholesale.xlsx')));
        expect([...book.sheets.keys()]).toEqual(['Line sheet']);
        expect(book.parts.get('xl/sharedStrings.xml')).toContain('Valid from 28 February 2027');
      },
    );
    expect(out).toContain('Wrote mine-prices-wholesale.xlsx: line sheet');
    await pricelist(['--channel', 'online', '--as', 'html', '--out', 'a.HTML'], undefined, (folder) => {
      expect(existsSync(join(folder, 'a.HTML'))).toBe(true);
    });
  });

  it('prints lists as JSON, and no file and nothing of the book beside them', async () => {
    const { exitCode, out, err } = await pricelist(
      ['--channel', 'wholesale', '--valid-from', '2026-12-01', '--json'],
      undefined,
      (folder) => expect(readdirSync(folder)).toEqual(['mine']),
    );
    expect({ exitCode, err }).toEqual({ exitCode: 0, err: '' });
    const read = JSON.parse(out) as { lists: PriceList[] };
    expect(Object.keys(read)).toEqual(['lists']);
    expect(read.lists).toHaveLength(1);
    expect(read.lists[0]).toMatchObject({
      kind: 'line sheet',
      validFrom: '2026-12-01',
      breaksFrom: [12, 24, 48],
    });
    // The asking price set by hand is under its floor, and that is nobody else's business.
    expect(out).not.toMatch(/floor|problem|check/);
  });

  it('shows the prices that sennit price shows', async () => {
    const { out } = await pricelist(['--channel', 'stall', '--json']);
    const [list] = (JSON.parse(out) as { lists: PriceList[] }).lists;
    await inFreshFolder(async (folder) => {
      await runCli(['new', 'mine'], { folder });
      const priced = JSON.parse((await runCli(['price', 'mine', '--json'], { folder })).out) as {
        products: { product: string; channels: { channel: string; asking: number }[] }[];
      };
      const asking = priced.products
        .filter(({ product }) => product !== 'sling bar')
        .map(({ channels }) => channels.find(({ channel }) => channel === 'stall')?.asking);
      const shown = list?.families.flatMap(({ products }) =>
        products.flatMap(({ prices }) => prices.flatMap(({ sizes, price }) => sizes.map(() => price))),
      );
      expect(shown?.sort()).toEqual(asking.sort());
    });
  });

  it.each([
    [['--channel', 'stal'], 'There is no channel “stal” in this book.', 'Did you mean “stall”?'],
    [['--channel', 'harbour'], 'There is no channel “harbour”', 'Known: stall, online, wholesale.'],
    [
      ['--valid-from', '1.12.2026'],
      '--valid-from “1.12.2026” is no day of the calendar.',
      'such as 2026-12-01',
    ],
    [['--valid-from', '2026-02-30'], 'is no day of the calendar', 'year, month and day'],
    [['--as', 'pdf'], '--as cannot be “pdf”.', 'Accepted: html, xlsx, csv.'],
    [
      ['--channel', 'stall', '--out', 'list.pdf'],
      'ends in none of .html, .xlsx and .csv',
      'such as price-list.html',
    ],
    [
      ['--channel', 'stall', '--as', 'csv', '--out', 'list.html'],
      '“list.html” does not end in .csv.',
      'price-list.csv',
    ],
    [['--channel', 'stall', '--out', '.csv'], 'has an ending and no name', 'price-list.csv'],
    [
      ['--out', 'list.html'],
      '--out names one file, and there are 3 channels: stall, online, wholesale.',
      'Say which with --channel.',
    ],
    [['--json', '--out', 'x.html'], '--json writes no file', 'Leave out'],
    [['--json', '--as', 'csv'], '--json writes no file', 'Leave out'],
  ])('refuses %j with exit code 2 and writes nothing', async (args, says, mend) => {
    const { exitCode, out, err } = await pricelist(args, undefined, (folder) => {
      expect(readdirSync(folder)).toEqual(['mine']);
    });
    expect({ exitCode, out }).toEqual({ exitCode: 2, out: '' });
    expect(err).toContain(says);
    expect(err).toContain(mend);
  });

  it('writes none of its files where one of them is there already, unless told to', async () => {
    const kept = (folder: string): void => writeFileSync(join(folder, 'mine-prices-wholesale.html'), 'mine');
    const { exitCode, err } = await pricelist([], kept, (folder) => {
      expect(readdirSync(folder).sort()).toEqual(['mine', 'mine-prices-wholesale.html']);
      expect(readFileSync(join(folder, 'mine-prices-wholesale.html'), 'utf8')).toBe('mine');
    });
    expect(exitCode).toBe(1);
    expect(err).toContain('mine-prices-wholesale.html is there already; nothing was written.');
    const replaced = await pricelist(['--replace'], kept, (folder) => {
      expect(readFileSync(join(folder, 'mine-prices-wholesale.html'), 'utf8')).toContain('<h1>');
    });
    expect(replaced.exitCode).toBe(0);
  });

  it('leaves nothing half-written where it cannot write', async () => {
    const { exitCode, err } = await pricelist(
      ['--channel', 'stall', '--out', 'away/list.xlsx'],
      undefined,
      (folder) => expect(readdirSync(folder)).toEqual(['mine']),
    );
    expect(exitCode).toBe(1);
    expect(err).toContain('away/list.xlsx could not be written: there is no such folder.');
    await pricelist(
      ['--channel', 'stall', '--out', 'away/list.xlsx'],
      (folder) => mkdirSync(join(folder, 'away')),
      (folder) => expect(readdirSync(join(folder, 'away'))).toEqual(['list.xlsx']),
    );
  });

  it('says what is wrong with the book, and writes nothing', async () => {
    const broken = (folder: string): void =>
      edit(folder, 'price_breaks.csv', (text) => `${text}stall,6,5,nothing here\n`);
    const { exitCode, err } = await pricelist([], broken, (folder) => {
      expect(readdirSync(folder)).toEqual(['mine']);
    });
    expect(exitCode).toBe(1);
    expect(err).toContain('“nothing here” is no product and no family');
    expect(err).toContain('Nothing was written.');
    const asJson = await pricelist(['--json'], broken);
    expect(asJson.exitCode).toBe(1);
    expect((JSON.parse(asJson.out) as { problems: unknown[] }).problems.length).toBeGreaterThan(0);
  });

  it('says so where no product is for the list', async () => {
    const none = (folder: string): void =>
      edit(folder, 'products.csv', (text) =>
        text
          .trim()
          .split('\n')
          .map((row, at) => (at === 0 ? row.replace('listed', 'was_listed').concat(',listed') : `${row},no`))
          .join('\n'),
      );
    const { exitCode, err } = await pricelist([], none, (folder) =>
      expect(readdirSync(folder)).toEqual(['mine']),
    );
    expect(exitCode).toBe(1);
    expect(err).toContain('No product is on a price list: products.csv says no under listed for each.');
  });

  it('gives channels of any name files of their own', async () => {
    const { exitCode } = await pricelist(
      ['--as', 'csv'],
      (folder) => {
        edit(
          folder,
          'channels.csv',
          (text) => `${text.trim()}\nA/B,,no\na b,,no\n..,,no\nŽižkov — trh,,no\na-b-2,,no\n`,
        );
      },
      (folder) => {
        expect(readdirSync(folder).sort()).toEqual(
          [
            'mine',
            'mine-prices-6.csv',
            'mine-prices-a-b-2.csv',
            'mine-prices-a-b-2-2.csv',
            'mine-prices-a-b.csv',
            'mine-prices-online.csv',
            'mine-prices-stall.csv',
            'mine-prices-wholesale.csv',
            'mine-prices-žižkov-trh.csv',
          ].sort(),
        );
      },
    );
    expect(exitCode).toBe(0);
  });
});
