import { existsSync, readdirSync, readFileSync, statSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import {
  type BookFiles,
  type ClosedFiles,
  decodeText,
  type MonthSource,
  monthOfClosedFile,
  readSheetFiles,
  type SheetFile,
  type Source,
} from '../engine/index.ts';
import { commandName } from './commandName.ts';
import { reading } from './hindered.ts';
import { Hindrance, type Io } from './io.ts';
import { sha256 } from './sha256.ts';

/** A table of ten million characters holds a hundred thousand products; beyond that it is a mistake. */
const longestFile = 50_000_000;

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
    tables: textFiles(templatesFolder, '', '.csv'),
  };
}

/** The sheets of one templates folder. The build has read them already; the sources are read where it has not. */
export function shippedSheets(folder: 'sheets' | 'oneoff' | 'month'): readonly SheetFile[] {
  const built = join(dirname(fileURLToPath(import.meta.url)), `${folder}.json`);
  if (existsSync(built)) return JSON.parse(readFileSync(built, 'utf8')) as SheetFile[];
  return readSheetFiles(textFiles(join(templatesFolder, folder), `templates/${folder}/`, '.yaml'));
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
  const sheets = join(folder, 'sheets');
  return new Map([
    ...textFiles(folder, '', ...endings),
    ...(existsSync(sheets) ? textFiles(sheets, 'sheets/', ...sheetEndings) : []),
  ]);
}

const sheetEndings = ['.yaml', '.yml'];
/** A table that is called otherwise than the sheets call it must reach the engine as well, to be named. */
const endings = ['.csv', ...sheetEndings];

/**
 * The text files of one folder with these endings, in any capitals, by prefix and name, in name order. Where a
 * folder has such a name, it is told by a stroke after it and an empty text.
 */
export function textFiles(folder: string, prefix: string, ...wanted: readonly string[]): Map<string, string> {
  const files = new Map<string, string>();
  for (const name of reading(prefix === '' ? folder : prefix, () => readdirSync(folder).sort())) {
    // Other programs leave hidden files behind: locks that lead nowhere, shadows of tables that are not text.
    if (name.startsWith('.') || !wanted.some((ending) => name.toLowerCase().endsWith(ending))) continue;
    const path = join(folder, name);
    const told = prefix + name;
    // Not what the folder lists: a link is as good as the file that it leads to.
    const found = reading(told, () => statSync(path));
    if (found.isDirectory()) {
      files.set(`${told}/`, '');
      continue;
    }
    if (found.size > longestFile)
      throw new Hindrance(`${told} is larger than 50 MB; that cannot be a table of a book.`);
    files.set(told, decodeText(reading(told, () => readFileSync(path))));
  }
  return files;
}

/** A book with its closed months, and the shipped sheets of a month. */
export function readMonthSource(io: Io, given: string): MonthSource {
  return { source: readSource(io, given), sheets: shippedSheets('month'), closed: readClosed(io, given) };
}

/** The files of a book's closed months. */
export function readClosed(io: Io, given: string): ClosedFiles {
  const closed = join(resolve(io.folder, given), 'closed');
  const isThere = existsSync(closed) && statSync(closed).isDirectory();
  return { files: isThere ? textFiles(closed, 'closed/', '.csv') : new Map(), sha256 };
}

/** The months of a book that are closed, such as 2026-10. */
export function closedMonths(io: Io, given: string): string[] {
  return [...readClosed(io, given).files.keys()].flatMap((file) => monthOfClosedFile(file) ?? []);
}
