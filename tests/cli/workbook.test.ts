import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { inFreshFolder, runCli } from '../support/runCli.ts';

/** A starter book in a fresh folder, changed by the test before a command runs on it. */
function withBook(change: (book: string) => void, args: readonly string[]): ReturnType<typeof runCli> {
  return inFreshFolder(async (folder) => {
    await runCli(['new', 'mine'], { folder });
    change(join(folder, 'mine'));
    return runCli(args, { folder });
  });
}

describe('sennit workbook', () => {
  it('says in words that it cannot write, with exit code 1', async () => {
    const { exitCode, err } = await withBook(
      (book) => writeFileSync(join(book, '..', 'taken'), ''),
      ['workbook', 'mine', '--out', 'taken/prices.xlsx'],
    );
    expect(exitCode).toBe(1);
    expect(err).toMatch(/prices\.xlsx could not be written: /);
  });

  it('writes to a name that ends in .xlsx only', async () => {
    const { exitCode, err } = await withBook(() => {}, ['workbook', 'mine', '--out', 'prices.pdf']);
    expect(exitCode).toBe(2);
    expect(err).toContain('does not end in .xlsx');
  });

  it.each([
    [['--as', 'ods'], 'mine.ods'],
    [['--as', 'ODS', '--out', 'Prices.ODS'], 'Prices.ODS'],
    [['--out', 'prices.ods'], 'prices.ods'],
  ])('writes OpenDocument where %j asks for it', (args, file) =>
    inFreshFolder(async (folder) => {
      await runCli(['new', 'mine'], { folder });
      const { exitCode, out } = await runCli(['workbook', 'mine', '--no-batch', ...args], { folder });
      expect(exitCode).toBe(0);
      expect(out).toContain(`Wrote ${file}: `);
      const type = 'mimetypeapplication/vnd.oasis.opendocument.spreadsheet';
      expect(readFileSync(join(folder, file)).toString('latin1', 30, 30 + type.length)).toBe(type);
    }),
  );

  it.each([
    [['--as', 'ods', '--out', 'prices.xlsx'], '“prices.xlsx” does not end in .ods.'],
    [['--as', 'xlsx', '--out', 'prices.ods'], '“prices.ods” does not end in .xlsx.'],
    [['--as', 'pdf'], '--as “pdf” is no format of a workbook.\n  Give xlsx or ods.'],
  ])('refuses %j', async (args, says) => {
    const { exitCode, err } = await withBook(() => {}, ['workbook', 'mine', ...args]);
    expect(exitCode).toBe(2);
    expect(err).toContain(says);
  });

  it.each(['.xlsx', '.ods', 'mine/.XLSX'])(
    'writes to a name that has more than its ending: %s',
    async (file) => {
      const { exitCode, err } = await withBook(() => {}, ['workbook', 'mine', '--out', file]);
      expect(exitCode).toBe(2);
      expect(err).toContain('has an ending and no name');
    },
  );

  it.each(['99999999999999999', '253402300800', 'yesterday', '-1'])(
    'refuses a day of a repeatable build that is no day: %s',
    (epoch) =>
      inFreshFolder(async (folder) => {
        await runCli(['new', 'mine'], { folder });
        const env = { SOURCE_DATE_EPOCH: epoch };
        const { exitCode, err } = await runCli(['workbook', 'mine'], { folder, env });
        expect(exitCode).toBe(2);
        expect(err).toContain(`SOURCE_DATE_EPOCH “${epoch}” is no moment`);
        expect(readdirSync(folder)).toEqual(['mine']);
      }),
  );

  it('prints the day of writing, or the one that a repeatable build asks for', async () => {
    const pages = await Promise.all(
      ['1700000000', '1700000000', '1800000000'].map((epoch) =>
        inFreshFolder(async (folder) => {
          await runCli(['new', 'mine'], { folder });
          await runCli(['workbook', 'mine'], { folder, env: { SOURCE_DATE_EPOCH: epoch } });
          return readFileSync(join(folder, 'mine.xlsx')).toString('base64');
        }),
      ),
    );
    expect(pages[0]).toBe(pages[1]);
    expect(pages[0]).not.toBe(pages[2]);
  });
});
