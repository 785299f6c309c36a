import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { inFreshFolder, runCli } from '../support/runCli.ts';
import { onFreshBook, writesOneFile } from '../support/writtenFile.ts';

const report = onFreshBook('report');

/** Changes the text of one of the book's files. */
function edit(folder: string, name: string, from: string, to: string): void {
  const file = join(folder, 'mine', name);
  const text = readFileSync(file, 'utf8');
  if (!text.includes(from)) throw new Error(`${name} has no “${from}”`);
  writeFileSync(file, text.replace(from, to));
}

/** The figures of `--json` that these tests look at. */
interface Figures {
  readonly prices: {
    readonly products: readonly {
      readonly product: string;
      readonly unitCost: number;
      readonly channels: readonly { readonly channel: string; readonly asking: number }[];
    }[];
  };
  readonly month: { readonly profit: number } | null;
  readonly sensitivity: { readonly today: number; readonly lines: readonly { readonly input: string }[] };
  readonly scenarios: { readonly scenarios: readonly { readonly name: string }[] } | null;
}

describe('sennit report', () => {
  it('writes one page beside the book, and says what is in it', async () => {
    let page = '';
    const { exitCode, out, err } = await report([], undefined, (folder) => {
      page = readFileSync(join(folder, 'mine-report.html'), 'utf8');
      expect(readdirSync(folder).sort()).toEqual(['mine', 'mine-report.html']);
    });
    expect({ exitCode, err }).toEqual({ exitCode: 0, err: '' });
    expect(out).toMatch(
      /^Wrote mine-report\.html: 32 products in 3 channels(; \d+ prices? under the floor)?\.\nOpen it in a browser; it needs no network\.\n$/,
    );
    expect(page.startsWith('<!DOCTYPE html>')).toBe(true);
    expect(page).toContain('2026-11-25');
    expect(page.endsWith('</html>\n')).toBe(true);
  });

  it('counts in words what is under the floor, as sennit price does', async () => {
    await inFreshFolder(async (folder) => {
      await runCli(['new', 'mine'], { folder });
      const { out } = await runCli(['report', 'mine'], { folder });
      const { out: asJson } = await runCli(['price', 'mine', '--json'], { folder });
      const { products } = JSON.parse(asJson) as {
        products: { channels: { underFloor: boolean }[] }[];
      };
      const under = products.flatMap(({ channels }) => channels).filter((each) => each.underFloor).length;
      expect(out.match(/; (\d+) prices? under the floor/)?.[1] ?? '0').toBe(String(under));
    });
  });

  it('prints the figures of the page as JSON, those of the other commands, and writes nothing', async () => {
    await inFreshFolder(async (folder) => {
      await runCli(['new', 'mine'], { folder });
      const { exitCode, out, err } = await runCli(['report', 'mine', '--json'], { folder });
      expect({ exitCode, err }).toEqual({ exitCode: 0, err: '' });
      expect(readdirSync(folder)).toEqual(['mine']);
      const figures = JSON.parse(out) as Figures;
      const priced = JSON.parse(
        (await runCli(['price', 'mine', '--json'], { folder })).out,
      ) as Figures['prices'];
      expect(figures.prices.products).toEqual(priced.products);
      const whatIf = JSON.parse((await runCli(['whatif', 'mine', '--json'], { folder })).out) as NonNullable<
        Figures['scenarios']
      >;
      expect(figures.scenarios?.scenarios).toEqual(whatIf.scenarios);
      const ranked = JSON.parse((await runCli(['sensitivity', 'mine', '--json'], { folder })).out) as object;
      expect(ranked).toMatchObject(figures.sensitivity);
      expect(figures.sensitivity.today).toBe(figures.month?.profit);
      expect(figures.sensitivity.lines.length).toBeGreaterThan(3);
      // What runs in the page is no figure.
      expect(Object.keys(figures)).not.toContain('live');
    });
  });

  it.each([
    [['--out', 'page.pdf'], '“page.pdf” does not end in .html.', 'such as report.html'],
    [['--out', '.html'], 'has an ending and no name', 'such as report.html'],
    [['--json', '--out', 'x.html'], '--json writes no page', 'Leave out one of them.'],
    [['--json', '--replace'], '--json writes no page', 'Leave out one of them.'],
  ])('refuses %j with exit code 2 and writes nothing', async (args, says, mend) => {
    const { exitCode, out, err } = await report(args, undefined, (folder) => {
      expect(readdirSync(folder)).toEqual(['mine']);
    });
    expect({ exitCode, out }).toEqual({ exitCode: 2, out: '' });
    expect(err).toContain(says);
    expect(err).toContain(mend);
  });

  writesOneFile(report, 'mine-report.html', '<main');

  it('says what is wrong with the book and leaves nothing behind', async () => {
    const broken = (folder: string): void =>
      edit(
        folder,
        'products.csv',
        'fob short,Key fob,Key fobs,3 in,bar',
        'fob short,Key fob,Key fobs,3 in,bra',
      );
    const { exitCode, out, err } = await report([], broken, (folder) => {
      expect(readdirSync(folder)).toEqual(['mine']);
    });
    expect({ exitCode, out }).toEqual({ exitCode: 1, out: '' });
    expect(err).toContain('“bra”');
    expect(err).toContain('Nothing was written.');
    const asJson = await report(['--json'], broken);
    expect(asJson.exitCode).toBe(1);
    expect((JSON.parse(asJson.out) as { problems: unknown[] }).problems.length).toBeGreaterThan(0);
  });

  it('says what is wrong with a scenario, and where', async () => {
    const { exitCode, err } = await report(
      [],
      (folder) => edit(folder, 'scenarios.csv', 'cord +12 %', 'cord +12 candles'),
      (folder) => {
        expect(readdirSync(folder)).toEqual(['mine']);
      },
    );
    expect(exitCode).toBe(1);
    expect(err).toContain('scenarios.csv');
    expect(err).toContain('cord +12 candles');
  });

  it('keeps a page that was there where the book has errors', async () => {
    await report(
      ['--replace'],
      (folder) => {
        writeFileSync(join(folder, 'mine-report.html'), 'mine');
        edit(folder, 'book.yaml', 'wage_per_hour: 22.00', 'wage_per_hour: much');
      },
      (folder) => {
        expect(readFileSync(join(folder, 'mine-report.html'), 'utf8')).toBe('mine');
      },
    );
  });

  it('finds no book where there is none', async () => {
    const { exitCode, err } = await inFreshFolder((folder) => runCli(['report', 'nothing'], { folder }));
    expect(exitCode).not.toBe(0);
    expect(err).toContain('nothing');
  });
});
