import { existsSync, readdirSync, readFileSync, statSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { type BookFiles, readSheetFiles, type SheetFile, type Source } from '../engine/index.ts';
import { commandName } from './commandName.ts';
import { Hindrance, type Io } from './io.ts';

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
export function shippedSheets(folder: 'sheets' | 'oneoff'): readonly SheetFile[] {
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
  return new Map([
    ...textFiles(folder, '', '.csv'),
    ...textFiles(folder, '', '.yaml'),
    ...(existsSync(join(folder, 'sheets')) ? textFiles(join(folder, 'sheets'), 'sheets/', '.yaml') : []),
  ]);
}

/** The text files of one folder with an ending, by prefix and name, in name order. */
export function textFiles(folder: string, prefix: string, ending: string): Map<string, string> {
  const files = new Map<string, string>();
  for (const entry of readdirSync(folder, { withFileTypes: true }).sort((one, other) =>
    one.name < other.name ? -1 : 1,
  )) {
    if (!entry.isFile() || !entry.name.endsWith(ending)) continue;
    const path = join(folder, entry.name);
    if (statSync(path).size > longestFile)
      throw new Hindrance(`${prefix}${entry.name} is larger than 50 MB; that cannot be a table of a book.`);
    files.set(prefix + entry.name, decode(readFileSync(path), prefix + entry.name));
  }
  return files;
}

/** Text is UTF-8, or UTF-16 where the byte-order mark says so, as some spreadsheet programs save "Unicode text". */
function decode(bytes: Uint8Array, name: string): string {
  const utf16 = bytes[0] === 0xff && bytes[1] === 0xfe;
  try {
    return new TextDecoder(utf16 ? 'utf-16le' : 'utf-8', { fatal: true }).decode(bytes);
  } catch {
    throw new Hindrance(`${name} is not UTF-8 text.\n  Save it again as CSV with the character set UTF-8.`);
  }
}
