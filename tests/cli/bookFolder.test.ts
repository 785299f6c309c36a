import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
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

describe('the folder of a book', () => {
  it('is read where a spreadsheet program saved its tables as UTF-16', async () => {
    const { exitCode } = await withBook(
      (book) => {
        const file = join(book, 'materials.csv');
        writeFileSync(file, Buffer.from(`\uFEFF${readFileSync(file, 'utf8')}`, 'utf16le'));
      },
      ['check', 'mine'],
    );
    expect(exitCode).toBe(0);
  });

  it('is refused in words where a file is in another character set', async () => {
    const { exitCode, err } = await withBook(
      (book) => writeFileSync(join(book, 'materials.csv'), Buffer.from([0x6d, 0xe9, 0x0a])),
      ['check', 'mine'],
    );
    expect(exitCode).toBe(1);
    expect(err).toContain('materials.csv is not UTF-8 text');
  });

  it('must be a folder', async () => {
    const { exitCode, err } = await withBook(() => {}, ['check', 'mine/book.yaml']);
    expect(exitCode).toBe(1);
    expect(err).toContain('is a file; a book is a folder');
  });

  it('may hold folders that are called like tables', async () => {
    const { exitCode } = await withBook((book) => mkdirSync(join(book, 'old.csv')), ['check', 'mine']);
    expect(exitCode).toBe(0);
  });
});

describe('a workbook that cannot be written', () => {
  it('is said in words, with exit code 1', async () => {
    const { exitCode, err } = await withBook(
      (book) => writeFileSync(join(book, '..', 'taken'), ''),
      ['workbook', 'mine', '--out', 'taken/prices.xlsx'],
    );
    expect(exitCode).toBe(1);
    expect(err).toMatch(/prices\.xlsx could not be written: /);
  });

  it('must end in .xlsx', async () => {
    const { exitCode, err } = await withBook(() => {}, ['workbook', 'mine', '--out', 'prices.pdf']);
    expect(exitCode).toBe(2);
    expect(err).toContain('does not end in .xlsx');
  });

  it('bears the day of writing, or the one that a repeatable build asks for', async () => {
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
