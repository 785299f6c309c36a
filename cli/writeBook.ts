import {
  closeSync,
  existsSync,
  fsyncSync,
  mkdirSync,
  openSync,
  readFileSync,
  realpathSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { basename, join } from 'node:path';
import { type BookFiles, decodeText } from '../engine/index.ts';
import { reading, writing } from './hindered.ts';
import { Hindrance } from './io.ts';

/** A file of the book on its way to a new text. */
interface Rewriting {
  readonly name: string;
  /** Where it really stands: a link keeps leading there. */
  readonly path: string;
  readonly beside: string;
  readonly before: Buffer | undefined;
  readonly after: Buffer;
  readonly mode: number | undefined;
}

/**
 * Writes several files of a book, all of them or none: first copies of the old ones into a folder of their own, then
 * the new ones beside the old, then each in its place. What goes wrong on the way is taken back.
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
  const all = [...files].map(([name, text]) => prepare(folder, name, text, before.get(name)));
  const old = all.filter((each) => each.before !== undefined);
  const copies = old.length === 0 ? undefined : freeFolder(folder, date);
  const made: Rewriting[] = [];
  const done: Rewriting[] = [];
  try {
    for (const { name, before: bytes } of old)
      writing(`the copy of ${name}`, () =>
        writeFileSync(join(copies ?? '', name), bytes ?? '', { flag: 'wx' }),
      );
    for (const each of all) {
      writing(each.name, () => writeWhole(each));
      made.push(each);
    }
    for (const each of all) {
      writing(each.name, () => renameSync(each.beside, each.path));
      done.push(each);
    }
  } catch (error) {
    takeBack(done, made, copies);
    throw error;
  }
  return copies === undefined ? undefined : basename(copies);
}

function prepare(folder: string, name: string, text: string, known: string | undefined): Rewriting {
  const given = join(folder, name);
  const isThere = existsSync(given);
  const path = isThere ? realpathSync(given) : given;
  const before = isThere ? reading(name, () => readFileSync(path)) : undefined;
  if ((before === undefined ? undefined : decodeText(before)) !== known)
    throw new Hindrance(
      `${name} was changed just now by another program; nothing was written.\n  Run the command again.`,
    );
  const utf16 = before?.[0] === 0xff && before[1] === 0xfe;
  const marked = utf16 || (before?.[0] === 0xef && before[1] === 0xbb && before[2] === 0xbf);
  const after = Buffer.from(`${marked ? '\uFEFF' : ''}${text}`, utf16 ? 'utf16le' : 'utf8');
  const mode = isThere ? statSync(path).mode & 0o777 : undefined;
  return { name, path, beside: `${path}.new-${process.pid}`, before, after, mode };
}

function writeWhole({ beside, after, mode }: Rewriting): void {
  const file = openSync(beside, 'wx', mode);
  try {
    writeFileSync(file, after);
    fsyncSync(file);
  } catch (error) {
    rmSync(beside, { force: true });
    throw error;
  } finally {
    closeSync(file);
  }
}

/** A new folder for copies; one of the same day gets a number. */
function freeFolder(folder: string, date: string): string {
  for (let number = 1; ; number += 1) {
    const name = `backup-${date}${number === 1 ? '' : `-${number}`}`;
    const path = join(folder, name);
    if (existsSync(path)) continue;
    writing(name, () => mkdirSync(path));
    return path;
  }
}

function takeBack(done: readonly Rewriting[], made: readonly Rewriting[], copies: string | undefined): void {
  let isWhole = true;
  for (const { path, before } of done) {
    try {
      if (before === undefined) rmSync(path);
      else writeFileSync(path, before);
    } catch {
      // The copy is all that is left of it: it stays.
      isWhole = false;
    }
  }
  for (const { beside } of made) rmSync(beside, { force: true });
  if (copies !== undefined && isWhole) rmSync(copies, { recursive: true, force: true });
}
