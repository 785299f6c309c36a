import { existsSync, mkdirSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { hostname } from 'node:os';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { demoBook } from '../support/books.ts';
import { inFreshFolder, runCli } from '../support/runCli.ts';
import { cell, changed, page, rowOf, workbookOf } from '../support/takein.ts';

const book = demoBook('starter');
const untouched = await workbookOf(book);
const dearer = await changed(untouched, (file) => {
  const materials = page(file, 'Materials');
  cell(materials, rowOf(materials, 'slate cord'), 'Pack price, USD').value = 64;
});

/** A folder with a book and its workbook. */
function laidOut(folder: string, bytes: Uint8Array, files: ReadonlyMap<string, string> = book): void {
  for (const [name, text] of files) {
    mkdirSync(join(folder, 'mine', name.includes('/') ? 'sheets' : ''), { recursive: true });
    writeFileSync(join(folder, 'mine', name), text);
  }
  writeFileSync(join(folder, 'mine.xlsx'), bytes);
}

/** Everything in the book's folder, byte by byte. */
function contents(folder: string): Record<string, string> {
  const all: Record<string, string> = {};
  const walk = (at: string): void => {
    for (const name of readdirSync(join(folder, at)).sort()) {
      const path = join(at, name);
      if (statSync(join(folder, path)).isDirectory()) walk(path);
      else all[path] = readFileSync(join(folder, path)).toString('base64');
    }
  };
  walk('mine');
  return all;
}

describe('sennit takein', () => {
  test('shows old and new, asks, writes, and keeps copies of what was', async () => {
    await inFreshFolder(async (folder) => {
      laidOut(folder, dearer);
      const asked: string[] = [];
      const ask = async (question: string): Promise<string> => {
        asked.push(question);
        return 'y';
      };
      const { exitCode, out, err } = await runCli(['takein', 'mine.xlsx'], { folder, ask });
      expect([exitCode, err]).toEqual([0, '']);
      expect(asked).toEqual(['Write this into mine? (y/n) ']);
      expect(out).toContain(
        '1 changed figure. The book is as it was when the workbook was written\n(2026-03-02).',
      );
      expect(out).toMatch(/slate cord +Pack price, USD +61 +64/);
      expect(out).toContain('As they were before: mine/backup-2026-11-25.');
      const now = readFileSync(join(folder, 'mine', 'materials.csv'), 'utf8');
      expect(now).toBe((book.get('materials.csv') ?? '').replace(',"1,000 ft",61.00', ',"1,000 ft",64.00'));
      const copy = readFileSync(join(folder, 'mine', 'backup-2026-11-25', 'materials.csv'), 'utf8');
      expect(copy).toBe(book.get('materials.csv'));
      // Once more brings nothing, and another change a folder of its own.
      const again = await runCli(['takein', 'mine.xlsx', '--yes'], { folder });
      expect(again.out).toContain('Nothing to take in');
      writeFileSync(join(folder, 'mine', 'materials.csv'), book.get('materials.csv') ?? '');
      await runCli(['takein', 'mine.xlsx', 'mine', '--yes'], { folder });
      expect(existsSync(join(folder, 'mine', 'backup-2026-11-25-2', 'materials.csv'))).toBe(true);
      expect((await runCli(['check', 'mine'], { folder })).exitCode).toBe(0);
    });
  });

  test.each([
    ['the answer is no', [], async (): Promise<string> => 'n', 0],
    ['the answer is none', [], async (): Promise<string> => '', 0],
    ['it is a dry run', ['--dry-run'], undefined, 0],
    ['there is nobody to ask', [], undefined, 2],
  ] as const)('writes nothing where %s', async (_, options, ask, code) => {
    await inFreshFolder(async (folder) => {
      laidOut(folder, dearer);
      const before = contents(folder);
      const io = ask === undefined ? { folder } : { folder, ask };
      const { exitCode, out, err } = await runCli(['takein', 'mine.xlsx', ...options], io);
      expect(exitCode).toBe(code);
      expect(out).toMatch(/slate cord +Pack price, USD +61 +64/);
      if (code === 2) expect(err).toContain('--yes');
      else expect(out).toContain('Nothing was written.');
      expect(contents(folder)).toEqual(before);
    });
  });

  test('writes nothing where both were changed, until it is said whose value stands', async () => {
    await inFreshFolder(async (folder) => {
      const ours = (book.get('materials.csv') ?? '').replace(',"1,000 ft",61.00', ',"1,000 ft",59.00');
      laidOut(folder, dearer, new Map([...book, ['materials.csv', ours]]));
      const before = contents(folder);
      const refused = await runCli(['takein', 'mine.xlsx', '--yes'], { folder });
      expect(refused.exitCode).toBe(1);
      expect(refused.out).toMatch(/slate cord +Pack price, USD +61 +64 +59/);
      expect(refused.out).toContain('materials.csv');
      expect(refused.out).toContain('--prefer workbook');
      expect(contents(folder)).toEqual(before);
      const kept = await runCli(['takein', 'mine.xlsx', '--yes', '--prefer', 'book'], { folder });
      expect(kept.exitCode).toBe(0);
      expect(contents(folder)).toEqual(before);
      const taken = await runCli(['takein', 'mine.xlsx', '--yes', '--prefer', 'workbook'], { folder });
      expect(taken.exitCode).toBe(0);
      expect(readFileSync(join(folder, 'mine', 'materials.csv'), 'utf8')).toContain('"1,000 ft",64.00');
    });
  });

  test('keeps character set, byte-order mark and line ends', async () => {
    await inFreshFolder(async (folder) => {
      laidOut(folder, dearer);
      const windows = (book.get('materials.csv') ?? '').replaceAll('\n', '\r\n');
      const path = join(folder, 'mine', 'materials.csv');
      writeFileSync(path, Buffer.from(`\uFEFF${windows}`, 'utf16le'));
      const { exitCode } = await runCli(['takein', 'mine.xlsx', '--yes'], { folder });
      expect(exitCode).toBe(0);
      const expected = windows.replace(',"1,000 ft",61.00', ',"1,000 ft",64.00');
      expect(readFileSync(path).equals(Buffer.from(`\uFEFF${expected}`, 'utf16le'))).toBe(true);
    });
  });

  test.each([
    ['is not there', 'none.xlsx', undefined, 1],
    ['is no workbook', 'mine.xlsx', new Uint8Array([1, 2, 3]), 1],
    ['was cut off', 'mine.xlsx', untouched.slice(0, 50_000), 1],
    ['has another ending', 'mine.csv', untouched, 2],
  ] as const)('refuses a workbook that %s, and leaves the book as it was', async (_, name, bytes, code) => {
    await inFreshFolder(async (folder) => {
      laidOut(folder, bytes ?? untouched);
      const before = contents(folder);
      const { exitCode, err } = await runCli(['takein', name, '--yes'], { folder });
      expect(exitCode).toBe(code);
      expect(err).not.toBe('');
      expect(contents(folder)).toEqual(before);
    });
  });

  test('prints what it found as JSON', async () => {
    await inFreshFolder(async (folder) => {
      laidOut(folder, dearer);
      expect((await runCli(['takein', 'mine.xlsx', '--json'], { folder })).exitCode).toBe(2);
      const { out } = await runCli(['takein', 'mine.xlsx', '--json', '--dry-run'], { folder });
      expect(JSON.parse(out)).toMatchObject({
        workbookOf: '2026-03-02',
        changedSince: [],
        changes: [
          {
            how: 'changed',
            sheet: 'Materials',
            row: 'slate cord',
            before: '61',
            after: '64',
            file: 'materials.csv',
            column: 'pack_price',
          },
        ],
        conflicts: [],
        problems: [],
        files: ['materials.csv'],
        written: false,
      });
    });
  });

  test('writes nothing while another run writes into the book', async () => {
    await inFreshFolder(async (folder) => {
      const both = await changed(dearer, (file) => {
        const rates = page(file, 'Rates');
        rates.getCell(`B${rowOf(rates, 'Wage')}`).value = 25;
      });
      laidOut(folder, both);
      // A run that lives holds the book.
      writeFileSync(join(folder, 'mine', '.sennit-lock'), `${process.pid}\n${hostname()}\n`);
      const before = contents(folder);
      const { exitCode, err } = await runCli(['takein', 'mine.xlsx', '--yes'], { folder });
      expect(exitCode).toBe(1);
      expect(err).toContain(`Another run of Sennit is writing into this book (process ${process.pid}`);
      expect(contents(folder)).toEqual(before);
      expect(readdirSync(join(folder, 'mine')).filter((name) => name.startsWith('backup'))).toEqual([]);
    });
  });

  test('tells of months that are over, not closed, and would be other ones', async () => {
    // docs/month.md, “What is not dated”: wage, tax rate, fees, and what a piece takes.
    const changedRate = (line: string, value: number): Promise<Uint8Array> =>
      changed(untouched, (file) => {
        const rates = page(file, 'Rates');
        rates.getCell(`B${rowOf(rates, line)}`).value = value;
      });
    const told = 'also changes the figures of months that are over and not closed';
    await inFreshFolder(async (folder) => {
      const plain = async (): Promise<string> =>
        (await runCli(['takein', 'mine.xlsx', '--dry-run'], { folder })).out.replace(/\s+/g, ' ');
      laidOut(folder, await changedRate('Wage', 25));
      expect(await plain()).toContain(`Wage: this ${told} (2026-10)`);
      laidOut(folder, await changedRate('Wanted margin on the net price', 0.3));
      expect(await plain()).not.toContain(told);
      laidOut(folder, await changedRate('Sales tax', 0.07));
      mkdirSync(join(folder, 'mine', 'closed'));
      writeFileSync(join(folder, 'mine', 'closed', '2026-10.csv'), '');
      expect(await plain()).not.toContain(told);
    });
  });

  test('does not say that there is nothing where there are faults alone', async () => {
    await inFreshFolder(async (folder) => {
      const faulty = await changed(untouched, (file) => {
        cell(page(file, 'Materials'), 3, 'Pack price, USD').value = 'plenty';
      });
      laidOut(folder, faulty);
      const before = contents(folder);
      const { exitCode, out, err } = await runCli(['takein', 'mine.xlsx', '--yes'], { folder });
      expect(exitCode).toBe(1);
      expect(out).toContain('The workbook cannot be taken in as it is.');
      expect(err).toContain('mine.xlsx, sheet Materials, cell I3');
      expect(contents(folder)).toEqual(before);
    });
  });
});
