import { execFileSync } from 'node:child_process';
import { mkdirSync, readFileSync, renameSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
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
    const { exitCode, out } = await withBook(
      (book) => {
        const file = join(book, 'materials.csv');
        writeFileSync(file, Buffer.from(`${readFileSync(file, 'utf8').trimEnd()}\ncafé,,,`, 'latin1'));
      },
      ['check', 'mine'],
    );
    expect(exitCode).toBe(1);
    expect(out).toMatch(/materials\.csv, row \d+: From here on the file is not UTF-8 text\./);
    expect(out).toContain('1 error');
  });

  it('may hold a file in another character set that no table needs', async () => {
    const { exitCode, out } = await withBook(
      (book) => writeFileSync(join(book, 'orders.csv'), Buffer.from('order,café\n', 'latin1')),
      ['check', 'mine'],
    );
    expect(exitCode).toBe(0);
    expect(out).toContain('orders.csv: Nothing reads this file');
  });

  it('is read through links that stay within it', async () => {
    const { exitCode, out } = await withBook(
      (book) => {
        mkdirSync(join(book, 'tables'));
        renameSync(join(book, 'materials.csv'), join(book, 'tables', 'shared.csv'));
        symlinkSync(join('tables', 'shared.csv'), join(book, 'materials.csv'));
      },
      ['check', 'mine'],
    );
    expect(out).toContain('The book can be priced');
    expect(exitCode).toBe(0);
  });

  it.each(['materials.csv', 'sheets', 'closed'])(
    'leads nowhere out of itself: %s is a link',
    async (name) => {
      const { exitCode, out, err } = await withBook(
        (book) => {
          const elsewhere = join(book, '..', 'elsewhere');
          if (name.includes('.')) renameSync(join(book, name), elsewhere);
          else mkdirSync(elsewhere);
          symlinkSync(elsewhere, join(book, name));
        },
        ['check', 'mine'],
      );
      expect(exitCode).toBe(1);
      expect(out).toBe('');
      expect(err).toContain(`${name} is a link that leads out of the book, and is not followed.`);
    },
  );

  it.each([
    ['a pipe', 'materials.csv', (path: string) => execFileSync('mkfifo', [path])],
    ['a device', 'materials.csv', (path: string) => symlinkSync('/dev/zero', path)],
  ])('says that a table is %s, and does not wait for its end', async (_, name, make) => {
    const { exitCode, err } = await withBook(
      (book) => {
        rmSync(join(book, name));
        make(join(book, name));
      },
      ['check', 'mine'],
    );
    expect(exitCode).toBe(1);
    expect(err).toMatch(
      /materials\.csv (could not be read: it is a device or a pipe|is a link that leads out)/,
    );
  });

  it.each([
    ['nowhere.csv', 'materials.csv could not be read: what it stands for is not there.'],
    ['materials.csv', 'materials.csv could not be read: it is a link that leads back to itself.'],
  ])('says in words that a file cannot be read: a link to %s', async (to, message) => {
    const { exitCode, err } = await withBook(
      (book) => {
        rmSync(join(book, 'materials.csv'));
        symlinkSync(join(book, to), join(book, 'materials.csv'));
      },
      ['check', 'mine'],
    );
    expect(exitCode).toBe(1);
    expect(err).toContain(message);
  });

  it('is read past the hidden files of other programs', async () => {
    const { exitCode, out } = await withBook(
      (book) => {
        symlinkSync('maker@bench.1234', join(book, '.#materials.csv'));
        writeFileSync(join(book, '._materials.csv'), Buffer.from([0, 5, 0x16, 0xff]));
      },
      ['check', 'mine'],
    );
    expect(exitCode).toBe(0);
    expect(out).not.toContain('._');
  });

  it('names files whose endings stand in other capitals', async () => {
    const { exitCode, out } = await withBook(
      (book) => renameSync(join(book, 'parts.csv'), join(book, 'Parts.CSV')),
      ['check', 'mine'],
    );
    expect(exitCode).toBe(0);
    expect(out).toContain('Parts.CSV: Nothing reads this file');
    expect(out).toContain('Did you mean parts.csv?');
  });

  it('names a folder that stands where a table would', async () => {
    const { exitCode, out } = await withBook(
      (book) => {
        rmSync(join(book, 'materials.csv'));
        mkdirSync(join(book, 'materials.csv'));
      },
      ['check', 'mine'],
    );
    expect(exitCode).toBe(1);
    expect(out).toContain('materials.csv/: This is a folder');
    expect(out).toContain('put a file materials.csv in its place');
  });

  it.each(['labels.yml', 'labels.YAML'])('has its own sheets read under the name %s', async (name) => {
    const { exitCode, out } = await withBook(
      (book) => {
        mkdirSync(join(book, 'sheets'), { recursive: true });
        writeFileSync(join(book, 'sheets', name), 'sheet: labels\n');
      },
      ['check', 'mine'],
    );
    expect(exitCode).toBe(1);
    expect(out).toContain(`sheets/${name}`);
  });

  it('says in words that its sheets are a file', async () => {
    const { exitCode, err } = await withBook(
      (book) => {
        rmSync(join(book, 'sheets'), { recursive: true, force: true });
        writeFileSync(join(book, 'sheets'), '');
      },
      ['check', 'mine'],
    );
    expect(exitCode).toBe(1);
    expect(err).toContain('sheets/ could not be read: it is a file, not a folder.');
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
