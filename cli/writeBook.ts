import { existsSync, mkdirSync, readFileSync, renameSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import type { BookFiles } from '../engine/index.ts';
import { decodeText } from '../engine/index.ts';
import { locked } from './files/bookLock.ts';
import { decide, dispose, finish, stage, stageFiles } from './files/change.ts';
import { inBook } from './files/inBook.ts';
import { encodedLike } from './files/textBytes.ts';
import { syncFolder, writeToDisk } from './files/wholeFile.ts';
import { reading, writing } from './hindered.ts';
import { Hindrance } from './io.ts';

/** A file of the book on its way to a new text. */
interface Rewriting {
  readonly name: string;
  /** Where it really stands within the book: a link keeps leading there. */
  readonly standsAt: string;
  readonly before: Buffer | undefined;
  readonly after: Buffer;
}

/**
 * Writes several files of a book, all of them or none (see `files/change.ts`), after copies of the old ones have been
 * put into a folder of their own.
 *
 * @param before the texts that the changes were made to; a file that was changed meanwhile stops everything
 * @param date names the folder of the copies, which never takes the place of an older one
 * @returns the name of that folder within the book; undefined where no file was there before
 */
export function writeBook(
  folder: string,
  files: BookFiles,
  before: BookFiles,
  date: string,
): string | undefined {
  return locked(folder, [...files.keys()].join(', '), () => {
    finish(folder);
    const all = [...files].map(([name, text]) => prepare(folder, name, text, before.get(name)));
    const staged = stageFiles(
      folder,
      all.map(({ standsAt, after }) => ({ name: standsAt, bytes: after })),
    );
    let copies: string | undefined;
    try {
      copies = copyOld(folder, all, date);
    } catch (error) {
      dispose(staged);
      throw error;
    }
    try {
      decide(folder, staged, all.map(({ name }) => name).join(', '));
    } catch (error) {
      // Where the change is not begun the copies are of no use; where it is, they are all that is left of the old files.
      const isBegun = all.some(({ standsAt, after }) => holds(join(folder, standsAt), after));
      if (copies !== undefined && !isBegun) dispose(copies);
      throw error;
    }
    return copies === undefined ? undefined : basename(copies);
  });
}

function prepare(folder: string, name: string, text: string, known: string | undefined): Rewriting {
  const standsAt = writing(name, () => inBook(folder, name));
  const path = join(folder, standsAt);
  const before = existsSync(path) ? reading(name, () => readFileSync(path)) : undefined;
  if ((before === undefined ? undefined : decodeText(before)) !== known)
    throw new Hindrance(
      `${name} was changed just now by another program; nothing was written.\n  Run the command again.`,
    );
  return { name, standsAt, before, after: encodedLike(before, text) };
}

/** Copies of the files as they are, in a folder that is there whole or not at all. */
function copyOld(folder: string, all: readonly Rewriting[], date: string): string | undefined {
  const old = all.filter((each) => each.before !== undefined);
  const [first] = old;
  if (first === undefined) return undefined;
  const made = stage(folder, `the copy of ${first.name}`, (staged) => {
    for (const { name, before } of old)
      writing(`the copy of ${name}`, () => {
        mkdirSync(dirname(join(staged, name)), { recursive: true });
        writeToDisk(join(staged, name), before ?? '');
      });
  });
  const copies = freeFolder(folder, date);
  try {
    writing(basename(copies), () => renameSync(made, copies));
  } catch (error) {
    dispose(made);
    throw error;
  }
  syncFolder(folder);
  return copies;
}

/** A new folder for copies; one of the same day gets a number. */
function freeFolder(folder: string, date: string): string {
  for (let number = 1; ; number += 1) {
    const path = join(folder, `backup-${date}${number === 1 ? '' : `-${number}`}`);
    if (!existsSync(path)) return path;
  }
}

function holds(path: string, bytes: Buffer): boolean {
  try {
    return readFileSync(path).equals(bytes);
  } catch {
    return false;
  }
}
