import { randomBytes } from 'node:crypto';
import {
  chownSync,
  closeSync,
  fchmodSync,
  fsyncSync,
  lstatSync,
  openSync,
  readdirSync,
  renameSync,
  rmSync,
  type Stats,
  writeFileSync,
} from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { writing } from '../hindered.ts';
import { Hindrance } from '../io.ts';
import { runs } from './runs.ts';

/** A file on its way: what it is called towards the user, where it goes, and what it will hold. */
export interface FileToWrite {
  readonly shown: string;
  readonly path: string;
  readonly bytes: Uint8Array | string;
}

/** Between the name of a file and the number of the run that is writing it. */
const beside = '.sennit-';

/**
 * Writes a file whole or not at all: beside its place first, down to the disk, and then into its place by one
 * renaming. A link that stands in its place is replaced and never written through.
 */
export function writeWhole(file: FileToWrite): void {
  writeAllWhole([file]);
}

/**
 * Writes several files, each whole or not at all. None takes its place before all of them are on the disk: what
 * makes a disk full leaves every old file as it was.
 */
export function writeAllWhole(files: readonly FileToWrite[]): void {
  const ready: { readonly from: string; readonly file: FileToWrite }[] = [];
  const placed: string[] = [];
  try {
    for (const file of files) {
      sweep(file.path);
      const from = `${file.path}${beside}${process.pid}-${randomBytes(4).toString('hex')}`;
      ready.push({ from, file });
      writing(file.shown, () => writeToDisk(from, file.bytes, standing(file.path)));
    }
    for (const { from, file } of ready) {
      writing(file.shown, () => renameSync(from, file.path));
      placed.push(file.shown);
    }
  } catch (error) {
    for (const { from } of ready) discard(from);
    if (error instanceof Hindrance && placed.length > 0)
      throw new Hindrance(`${error.message}\n  Written before it, and whole: ${placed.join(', ')}.`);
    throw error;
  }
  for (const folder of new Set(files.map(({ path }) => dirname(path)))) syncFolder(folder);
}

/** What stands in a place already; nothing where it is free or a link. */
function standing(path: string): Stats | undefined {
  const found = lstatSync(path, { throwIfNoEntry: false });
  return found?.isFile() === true ? found : undefined;
}

/**
 * Writes a new file down to the disk, with the rights of the one that it will stand for. Fails where there is
 * anything of that name, a link too.
 */
export function writeToDisk(path: string, bytes: Uint8Array | string, like?: Stats): void {
  const file = openSync(path, 'wx', like === undefined ? 0o666 : like.mode & 0o777);
  try {
    // Goes on until all bytes are written: a disk that is nearly full takes the first of them and no more.
    writeFileSync(file, bytes);
    if (like !== undefined) fchmodSync(file, like.mode & 0o777);
    fsyncSync(file);
  } finally {
    closeSync(file);
  }
  if (like === undefined || process.getuid?.() !== 0) return;
  chownSync(path, like.uid, like.gid);
}

/** Makes sure that what was renamed stays renamed after a power cut, where the system has that. */
export function syncFolder(folder: string): void {
  try {
    const open = openSync(folder, 'r');
    try {
      fsyncSync(open);
    } finally {
      closeSync(open);
    }
  } catch {
    // Not every system opens folders; what was written is whole either way.
  }
}

/** Removes what a run that was killed left beside a file. */
function sweep(path: string): void {
  const start = `${basename(path)}${beside}`;
  let names: string[];
  try {
    names = readdirSync(dirname(path));
  } catch {
    return;
  }
  for (const name of names) {
    const run = name.startsWith(start)
      ? /^(\d+)-[0-9a-f]{8}$/.exec(name.slice(start.length))?.[1]
      : undefined;
    if (run !== undefined && !runs(Number(run))) discard(join(dirname(path), name));
  }
}

/** Removes a file of ours, if that can be done: what remains of it is in nobody's way. */
function discard(path: string): void {
  try {
    rmSync(path, { force: true });
  } catch {
    // It is the fault before this one that has to be told.
  }
}
