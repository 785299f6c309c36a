import {
  closeSync,
  lstatSync,
  mkdirSync,
  mkdtempSync,
  openSync,
  readdirSync,
  renameSync,
  rmdirSync,
  rmSync,
} from 'node:fs';
import { dirname, join } from 'node:path';
import { writing } from '../hindered.ts';
import { Hindrance } from '../io.ts';
import { syncFolder, writeToDisk } from './wholeFile.ts';

/**
 * How several files of a book change all together. The new files are written into a folder of their own
 * (`.sennit-staged-…`). Renaming it to `.sennit-pending` is the one step that decides: before it nothing has
 * changed, after it everything has, for then its files only wait to be moved into their places, and whoever opens
 * the book next moves those that are left. So a run may be killed anywhere, and a disk be full anywhere before.
 *
 * Everything here is done under the book's lock.
 */
const stagedName = '.sennit-staged-';
const pendingName = '.sennit-pending';

/** A file of the book in the words of its own folder, and what it will hold. */
export interface NewFile {
  readonly name: string;
  readonly bytes: Uint8Array;
}

/** Removes what runs that were killed had staged: nobody else stages anything while the book is locked. */
function sweepStaged(folder: string): void {
  for (const name of readdirSync(folder)) if (name.startsWith(stagedName)) dispose(join(folder, name));
}

/** A folder for new files; removed again where they cannot all be written. */
export function stage(folder: string, shown: string, fill: (staged: string) => void): string {
  const staged = writing(shown, () => mkdtempSync(join(folder, stagedName)));
  try {
    fill(staged);
  } catch (error) {
    dispose(staged);
    throw error;
  }
  return staged;
}

/** Writes new files into a staged folder, each with the rights of the one that stands in the book. */
export function stageFiles(folder: string, files: readonly NewFile[]): string {
  return stage(folder, files[0]?.name ?? folder, (staged) => {
    for (const { name, bytes } of files) {
      const like = lstatSync(join(folder, name), { throwIfNoEntry: false });
      writing(name, () => {
        mkdirSync(dirname(join(staged, name)), { recursive: true });
        // What may not be written, or is open elsewhere, is told now and not when others have been moved.
        if (like !== undefined) closeSync(openSync(join(folder, name), 'r+'));
        writeToDisk(join(staged, name), bytes, like);
      });
    }
  });
}

/** Makes what is staged the book's, whole or not at all. */
export function decide(folder: string, staged: string, shown: string): void {
  const pending = join(folder, pendingName);
  try {
    writing(shown, () => renameSync(staged, pending));
  } catch (error) {
    dispose(staged);
    throw error;
  }
  syncFolder(folder);
  const moved: string[] = [];
  try {
    move(pending, folder, '', moved);
  } catch (error) {
    if (moved.length > 0) throw begun(error);
    try {
      renameSync(pending, staged);
    } catch {
      throw begun(error);
    }
    dispose(staged);
    throw error;
  }
  syncFolder(folder);
}

/** Whether a change of this book was broken off after it was decided. */
export function isPending(folder: string): boolean {
  return lstatSync(join(folder, pendingName), { throwIfNoEntry: false }) !== undefined;
}

/**
 * Clears up after runs that were killed: finishes a change that was decided, removes what was not. Names what it moved; throws a hindrance where that cannot be done, for what
 * stands in the places then is neither the old book nor the new one.
 */
export function finish(folder: string): readonly string[] {
  const pending = join(folder, pendingName);
  sweepStaged(folder);
  const found = lstatSync(pending, { throwIfNoEntry: false });
  if (found === undefined) return [];
  if (!found.isDirectory())
    throw new Hindrance(`${pendingName} in the book is no folder of Sennit's.\n  Remove it.`);
  const moved: string[] = [];
  try {
    move(pending, folder, '', moved);
  } catch (error) {
    throw begun(error);
  }
  syncFolder(folder);
  return moved;
}

function begun(error: unknown): unknown {
  if (!(error instanceof Hindrance)) return error;
  return new Hindrance(
    `${error.message}\n  A change of this book is decided and not all in its place: the new files wait in the folder ${pendingName} of the book. Mend what stands in the way, and run any command on the book: it moves them first.`,
  );
}

/** Moves everything out of a folder into its place, then removes the folder. Links are not followed on either side. */
function move(from: string, to: string, prefix: string, moved: string[]): void {
  for (const name of readdirSync(from).sort()) {
    const told = prefix + name;
    const kind = lstatSync(join(from, name));
    const there = lstatSync(join(to, name), { throwIfNoEntry: false });
    if (kind.isDirectory()) {
      if (there !== undefined && !there.isDirectory())
        throw new Hindrance(`${told} could not be written: there is no folder of that name.`);
      if (there === undefined) writing(told, () => mkdirSync(join(to, name)));
      move(join(from, name), join(to, name), `${told}/`, moved);
      continue;
    }
    if (!kind.isFile()) throw new Hindrance(`${pendingName}/${told} is no file.\n  Remove it.`);
    writing(told, () => renameSync(join(from, name), join(to, name)));
    moved.push(told);
  }
  writing(prefix === '' ? pendingName : prefix, () => rmdirSync(from));
}

/** Removes what came to nothing, if that can be done; the next change of the book removes it otherwise. */
export function dispose(staged: string): void {
  try {
    rmSync(staged, { recursive: true, force: true });
  } catch {
    // The fault before this one is to be told.
  }
}
