import {
  closeSync,
  linkSync,
  openSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { hostname } from 'node:os';
import { join } from 'node:path';
import { writing } from '../hindered.ts';
import { Hindrance } from '../io.ts';
import { runs } from './runs.ts';

/** Stands in a book for as long as a run writes into it. */
const lockName = '.sennit-lock';

/** Writing into a book takes much less than this; whoever comes second waits so long. */
const patienceMs = 3000;
const pauseMs = 25;

/**
 * Does something to a book that no other run may do at the same time. Waits a moment for a run that is writing;
 * the lock of one that was killed is taken over.
 *
 * @param shown what could not be written, where the lock itself cannot be
 */
export function locked<T>(folder: string, shown: string, work: () => T): T {
  const path = join(folder, lockName);
  const end = Date.now() + patienceMs;
  while (!writing(shown, () => taken(path))) {
    const other = holder(path);
    if (other !== undefined && isGone(other)) {
      takeAway(path, other);
      continue;
    }
    if (Date.now() > end)
      throw new Hindrance(
        `Another run of Sennit is writing into this book${other === undefined || other.run === undefined ? '' : ` (process ${other.run} on ${other.machine})`}; nothing was written.\n  Run the command again. If there is no other run, remove ${lockName} from the book.`,
      );
    Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, pauseMs);
  }
  try {
    return work();
  } finally {
    giveBack(path);
  }
}

/** A lock that cannot be removed is taken over once this run has ended. */
function giveBack(path: string): void {
  try {
    rmSync(path, { force: true });
  } catch {
    // What was done is done.
  }
}

function taken(path: string): boolean {
  let file: number;
  try {
    file = openSync(path, 'wx');
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'EEXIST') return false;
    throw error;
  }
  try {
    writeFileSync(file, `${process.pid}\n${hostname()}\n`);
  } catch (error) {
    giveBack(path);
    throw error;
  } finally {
    closeSync(file);
  }
  return true;
}

interface Holder {
  /** Nothing where the lock does not say: its run is only just taking it, or was killed while it did. */
  readonly run: number | undefined;
  readonly machine: string;
  readonly ageMs: number;
  readonly text: string;
}

/** Two runs may find the same lock left behind: the second must not take away what the first has put in its place. */
function takeAway(path: string, { text }: Holder): void {
  const aside = `${path}-${process.pid}`;
  try {
    renameSync(path, aside);
    if (readFileSync(aside, 'utf8') !== text) linkSync(aside, path);
  } catch {
    // Another run was quicker.
  }
  giveBack(aside);
}

function holder(path: string): Holder | undefined {
  try {
    const text = readFileSync(path, 'utf8');
    const [, run, machine = ''] = /^(\d+)\n([^\n]*)\n$/.exec(text) ?? [];
    const ageMs = Date.now() - statSync(path).mtimeMs;
    return { run: run === undefined ? undefined : Number(run), machine, ageMs, text };
  } catch {
    // It has just been given back.
    return undefined;
  }
}

function isGone({ run, machine, ageMs }: Holder): boolean {
  if (run === undefined) return ageMs > patienceMs / 2;
  return machine === hostname() && !runs(run);
}
