import { existsSync, lstatSync, readdirSync, readFileSync, statSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import {
  type BookFiles,
  type ClosedFiles,
  type MonthSource,
  monthOfClosedFile,
  readSheetFiles,
  type SheetFile,
  type Source,
} from '../engine/index.ts';
import { commandName } from './commandName.ts';
import { locked } from './files/bookLock.ts';
import { finish, isPending } from './files/change.ts';
import { textFiles } from './files/textFiles.ts';
import { reading } from './hindered.ts';
import { Hindrance, type Io } from './io.ts';
import { sha256 } from './sha256.ts';

/** Where the shipped templates stand: beside dist/ in the package, beside cli/ in the sources. */
export const templatesFolder: string = join(dirname(fileURLToPath(import.meta.url)), '..', 'templates');

/** Reads a book's folder and the shipped sheets. */
export function readSource(io: Io, given: string): Source {
  return { book: readBookFolder(io, given), ...shipped() };
}

/** The shipped sheets and tables. */
export function shipped(): Omit<Source, 'book'> {
  return {
    sheets: shippedSheets('sheets'),
    tables: textFiles(templatesFolder, '', '', '.csv'),
  };
}

/** The sheets of one templates folder. The build has read them already; the sources are read where it has not. */
export function shippedSheets(folder: 'sheets' | 'oneoff' | 'month'): readonly SheetFile[] {
  const built = join(dirname(fileURLToPath(import.meta.url)), `${folder}.json`);
  if (existsSync(built)) return JSON.parse(readFileSync(built, 'utf8')) as SheetFile[];
  return readSheetFiles(textFiles(templatesFolder, folder, `templates/${folder}/`, '.yaml'));
}

export function readBookFolder(io: Io, given: string): BookFiles {
  const folder = resolve(io.folder, given);
  if (!existsSync(folder)) {
    throw new Hindrance(
      `There is no folder “${given}”.\n  Make a starter book with: ${commandName(io)} new ${given}`,
    );
  }
  if (!statSync(folder).isDirectory()) {
    throw new Hindrance(`“${given}” is a file; a book is a folder with book.yaml in it.\n  Give the folder.`);
  }
  finishChange(io, folder);
  return unchanging(folder, () => {
    return new Map([
      ...textFiles(folder, '', '', ...endings),
      ...(existsSync(join(folder, 'sheets')) ? textFiles(folder, 'sheets', 'sheets/', ...sheetEndings) : []),
    ]);
  });
}

/** A run that was killed in the midst of a change left the rest of it to be done. */
function finishChange(io: Io, folder: string): void {
  if (!isPending(folder)) return;
  const moved = locked(folder, 'A change that was broken off', () => finish(folder));
  if (moved.length > 0)
    io.err(`A change of this book had been broken off; it is now finished: ${moved.join(', ')}.\n`);
}

/** How often a book is read again that is written into meanwhile. */
const mostReadings = 20;

/** Reads until nothing has changed on the way: not half of a change that another run makes. */
function unchanging<T>(folder: string, read: () => T): T {
  for (let count = 1; ; count += 1) {
    const before = signature(folder);
    const found = read();
    if (before === signature(folder) || count === mostReadings) return found;
  }
}

/** Which files stand in a book, and of what time; hidden ones too, as those tell of a change. */
function signature(folder: string): string {
  return ['', 'sheets', 'closed']
    .flatMap((within) => {
      const place = join(folder, within);
      if (!existsSync(place) || !statSync(place).isDirectory()) return [];
      return reading(within, () => readdirSync(place)).map((name) => {
        const found = lstatSync(join(place, name), { throwIfNoEntry: false });
        return `${within}/${name} ${found?.ino} ${found?.size} ${found?.mtimeMs}`;
      });
    })
    .join('\n');
}

const sheetEndings = ['.yaml', '.yml'];
/** A table that is called otherwise than the sheets call it must reach the engine as well, to be named. */
const endings = ['.csv', ...sheetEndings];

/** A book with its closed months, and the shipped sheets of a month. */
export function readMonthSource(io: Io, given: string): MonthSource {
  return { source: readSource(io, given), sheets: shippedSheets('month'), closed: readClosed(io, given) };
}

/** The files of a book's closed months. */
export function readClosed(io: Io, given: string): ClosedFiles {
  const folder = resolve(io.folder, given);
  const closed = join(folder, 'closed');
  const isThere = existsSync(closed) && statSync(closed).isDirectory();
  return { files: isThere ? textFiles(folder, 'closed', 'closed/', '.csv') : new Map(), sha256 };
}

/** The months of a book that are closed, such as 2026-10. */
export function closedMonths(io: Io, given: string): string[] {
  return [...readClosed(io, given).files.keys()].flatMap((file) => monthOfClosedFile(file) ?? []);
}
