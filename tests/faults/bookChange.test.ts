import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { readBookFolder } from '../../cli/bookFolder.ts';
import { editTextFile } from '../../cli/editTextFile.ts';
import { writeAllWhole } from '../../cli/files/wholeFile.ts';
import { Hindrance, type Io } from '../../cli/io.ts';
import { writeBook } from '../../cli/writeBook.ts';
import { type Fault, faultsAt, Killed, withFault } from '../support/faultyFiles.ts';

const oldBook = new Map([
  ['book.yaml', 'currency: USD\n'],
  ['materials.csv', 'material\nslate cord\n'.repeat(200)],
  ['sheets/tags.yaml', 'sheet: tags\n'],
  ['stock.csv', 'material\n'],
]);
/** Two files with other texts, one that was not there, one in a folder; stock.csv stays. */
const newFiles = new Map([
  ['book.yaml', 'currency: EUR\n'],
  ['materials.csv', 'material\nclay cord\n'.repeat(300)],
  ['sheets/tags.yaml', 'sheet: labels\n'],
  ['packs.csv', 'material,pack\n'],
]);
const newBook = new Map([...oldBook, ...newFiles]);

function layOut(folder: string): string {
  const book = join(folder, 'mine');
  rmSync(book, { recursive: true, force: true });
  mkdirSync(join(book, 'sheets'), { recursive: true });
  for (const [name, text] of oldBook) writeFileSync(join(book, name), text);
  return book;
}

const io: Io = { out: () => undefined, err: () => undefined, env: {}, now: () => new Date(0), folder: '/' };

function plain(files: ReadonlyMap<string, string>): Record<string, string> {
  return Object.fromEntries([...files].sort());
}

function isOneOf(found: ReadonlyMap<string, string>, ...books: ReadonlyMap<string, string>[]): string {
  const at = books.findIndex((each) => JSON.stringify(plain(each)) === JSON.stringify(plain(found)));
  return at < 0 ? JSON.stringify(plain(found)).slice(0, 300) : (['old', 'new'][at] ?? '');
}

/** The copies of the old files, where any were kept: all of them whole, or there is no folder of copies. */
function copiesAreWhole(book: string): boolean {
  return readdirSync(book)
    .filter((name) => name.startsWith('backup-'))
    .every((name) =>
      [...newFiles.keys()].every((file) => {
        const before = oldBook.get(file);
        const kept = join(book, name, file);
        return before === undefined ? !existsSync(kept) : readFileSync(kept, 'utf8') === before;
      }),
    );
}

const inFolder = async (work: (folder: string) => Promise<void>): Promise<void> => {
  const folder = mkdtempSync(join(tmpdir(), 'sennit-'));
  try {
    await work(folder);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
};

/** The lock says that this very process holds it; the one that was killed has another number, which nothing has. */
function bury(folder: string): void {
  const lock = join(folder, 'mine', '.sennit-lock');
  if (existsSync(lock)) writeFileSync(lock, readFileSync(lock, 'utf8').replace(/^\d+\n/, '99999999\n'));
}

/** Every operation, with every fault. */
async function everywhere(
  folder: string,
  work: () => unknown,
  each: (at: number, fault: Fault, name: string, error: unknown) => void,
  before: () => void,
): Promise<void> {
  before();
  const { operations, error } = await withFault(0, 'EIO', work);
  expect(error).toBeUndefined();
  expect(operations.length).toBeGreaterThan(4);
  for (let at = 1; at <= operations.length; at += 1) {
    for (const fault of faultsAt(at)) {
      before();
      const run = await withFault(at, fault, work);
      bury(folder);
      each(at, fault, `${fault} at ${at}, ${operations[at - 1]}`, run.error);
    }
  }
}

describe('several files of a book', () => {
  test('are the old ones or the new ones, all of them, wherever the run fails or is killed', () =>
    inFolder(async (folder) => {
      const book = join(folder, 'mine');
      const change = (): unknown => writeBook(book, newFiles, oldBook, '2026-11-25');
      const seen = new Set<string>();
      await everywhere(
        folder,
        change,
        (_, fault, name, error) => {
          const isKilled = fault.startsWith('killed');
          // A fault that has nothing to do with the files themselves (removing the lock, say) may pass unsaid.
          if (isKilled) expect(error, name).toBeInstanceOf(Killed);
          else if (error !== undefined) expect(error, name).toBeInstanceOf(Hindrance);
          const found = isOneOf(readBookFolder(io, book), oldBook, newBook);
          expect(found, name).toMatch(/^(old|new)$/);
          // Who is told of no fault has the new book; who is told of one has the old, or is told that it is begun.
          if (!isKilled && error === undefined) expect(found, name).toBe('new');
          if (error instanceof Hindrance && !/is decided and not all in its place/.test(error.message))
            expect(found, name).toBe('old');
          seen.add(found);
          expect(copiesAreWhole(book), name).toBe(true);
          if (found === 'new')
            expect(
              readdirSync(book).some((each) => each.startsWith('backup-')),
              name,
            ).toBe(true);
          // The next change finds nothing in its way, and nothing of the broken one remains.
          writeBook(book, new Map([['stock.csv', 'material\nnext\n']]), oldBook, '2026-11-26');
          expect(
            readdirSync(book).filter((each) => each.startsWith('.sennit')),
            name,
          ).toEqual([]);
        },
        () => layOut(folder),
      );
      expect([...seen].sort()).toEqual(['new', 'old']);
    }));

  test('are refused where a link leads out of the book, and nothing outside is touched', () =>
    inFolder(async (folder) => {
      const book = layOut(folder);
      const { symlinkSync } = await import('node:fs');
      const outside = join(folder, 'outside.csv');
      writeFileSync(outside, oldBook.get('materials.csv') ?? '');
      rmSync(join(book, 'materials.csv'));
      symlinkSync(outside, join(book, 'materials.csv'));
      expect(() => writeBook(book, newFiles, oldBook, '2026-11-25')).toThrow(/leads out of the book/);
      expect(readFileSync(outside, 'utf8')).toBe(oldBook.get('materials.csv'));
      expect(readFileSync(join(book, 'book.yaml'), 'utf8')).toBe(oldBook.get('book.yaml'));
      mkdirSync(join(folder, 'elsewhere'));
      rmSync(join(book, 'sheets'), { recursive: true });
      symlinkSync(join(folder, 'elsewhere'), join(book, 'sheets'));
      expect(() => writeBook(book, new Map([['sheets/new.yaml', 'x']]), new Map(), '2026-11-25')).toThrow(
        /leads out of the book/,
      );
      expect(() => editTextFile(book, 'materials.csv', () => 'x')).toThrow(/leads out of the book/);
      expect(() => editTextFile(book, '../outside.csv', () => 'x')).toThrow(/leads out of the book/);
      expect(readdirSync(join(folder, 'elsewhere'))).toEqual([]);
      expect(readdirSync(book).filter((each) => each.startsWith('.sennit'))).toEqual([]);
    }));

  test('that wait are moved only into the book: a link among them, or in their way, stops it', () =>
    inFolder(async (folder) => {
      const { symlinkSync } = await import('node:fs');
      const book = layOut(folder);
      mkdirSync(join(book, '.sennit-pending'));
      symlinkSync('/etc/hostname', join(book, '.sennit-pending', 'materials.csv'));
      expect(() => readBookFolder(io, book)).toThrow(Hindrance);
      rmSync(join(book, '.sennit-pending'), { recursive: true });
      mkdirSync(join(book, '.sennit-pending', 'sheets'), { recursive: true });
      writeFileSync(join(book, '.sennit-pending', 'sheets', 'tags.yaml'), 'x');
      rmSync(join(book, 'sheets'), { recursive: true });
      mkdirSync(join(folder, 'elsewhere'));
      symlinkSync(join(folder, 'elsewhere'), join(book, 'sheets'));
      expect(() => readBookFolder(io, book)).toThrow(Hindrance);
      expect(readdirSync(join(folder, 'elsewhere'))).toEqual([]);
    }));
});

test('one file of a book is the old one or the new one, wherever the run fails or is killed', () =>
  inFolder(async (folder) => {
    const book = join(folder, 'mine');
    const after = new Map([...oldBook, ['stock.csv', 'material\ntaken\n']]);
    await everywhere(
      folder,
      () => editTextFile(book, 'stock.csv', () => 'material\ntaken\n'),
      (_, fault, name, error) => {
        if (!fault.startsWith('killed') && error !== undefined) expect(error, name).toBeInstanceOf(Hindrance);
        const found = isOneOf(readBookFolder(io, book), oldBook, after);
        expect(found, name).toMatch(/^(old|new)$/);
        if (error instanceof Hindrance) expect(found, name).toBe('old');
        if (error === undefined) expect(found, name).toBe('new');
      },
      () => layOut(folder),
    );
  }));

test('files that a command writes are each the old one or the new one; a full disk leaves all the old ones', () =>
  inFolder(async (folder) => {
    const names = ['a.html', 'b.html', 'c.html'];
    const texts = (): string[] => names.map((name) => readFileSync(join(folder, name), 'utf8'));
    await everywhere(
      folder,
      () =>
        writeAllWhole(
          names.map((name) => ({ shown: name, path: join(folder, name), bytes: 'new '.repeat(3000) })),
        ),
      (_, fault, name, error) => {
        const found = texts();
        for (const text of found) expect(['old', 'new '.repeat(3000)], name).toContain(text);
        if (error instanceof Hindrance) {
          const changed = names.filter((__, at) => found[at] !== 'old');
          // What was written before the fault is told of.
          expect(/whole: (.*)\.$/.exec(error.message)?.[1] ?? '', name).toBe(changed.join(', '));
        } else if (!fault.startsWith('killed'))
          expect(
            found.every((text) => text !== 'old'),
            name,
          ).toBe(true);
        // Nothing else is there, except what a run that was killed left: its file is removed once that run is gone.
        const rest = readdirSync(folder).filter((each) => !names.includes(each));
        if (!fault.startsWith('killed') && !/^rmSync/.test(name))
          expect(rest.length, name).toBeLessThanOrEqual(1);
        for (const each of rest) {
          expect(each, name).toMatch(/^[abc]\.html\.sennit-\d+-[0-9a-f]{8}$/);
          rmSync(join(folder, each));
        }
      },
      () => {
        for (const name of names) writeFileSync(join(folder, name), 'old');
      },
    );
  }));

test('what a killed run left beside a file goes with the next one, and nothing else does', () =>
  inFolder(async (folder) => {
    const path = join(folder, 'a.html');
    // No process has this number: it is beyond the largest that a system gives.
    writeFileSync(`${path}.sennit-99999999-0123abcd`, 'half');
    writeFileSync(`${path}.sennit-${process.pid}-0123abcd`, 'of a run that lives');
    writeFileSync(`${path}.sennit-mine`, 'of the maker');
    writeAllWhole([{ shown: 'a.html', path, bytes: 'whole' }]);
    expect(readdirSync(folder).sort()).toEqual(
      ['a.html', `a.html.sennit-${process.pid}-0123abcd`, 'a.html.sennit-mine'].sort(),
    );
    expect(statSync(path).size).toBe(5);
  }));
