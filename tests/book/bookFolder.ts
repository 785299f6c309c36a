import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { type Priced, priceBook, type Source } from '../../engine/priceBook.ts';
import { readSheetFiles } from '../../engine/sheets/readDefinitions.ts';

const root = fileURLToPath(new URL('../../', import.meta.url));

function readFolder(folder: string, prefix: string, ending: RegExp): [string, string][] {
  const path = `${root}${folder}`;
  if (!existsSync(path)) return [];
  return readdirSync(path)
    .filter((name) => ending.test(name))
    .sort()
    .map((name) => [`${prefix}${name}`, readFileSync(`${path}/${name}`, 'utf8')]);
}

/** The shipped sheets and tables. */
export const shipped: Omit<Source, 'book'> = {
  sheets: readSheetFiles(new Map(readFolder('templates/sheets', 'templates/sheets/', /\.yaml$/))),
  tables: new Map(readFolder('templates', '', /\.csv$/)),
};

/** The files of a demo book, by name within its folder. */
export function demoBook(name: 'starter' | 'metric'): Map<string, string> {
  const folder = `templates/books/${name}`;
  return new Map([
    ...readFolder(folder, '', /\.(?:yaml|csv)$/),
    ...readFolder(`${folder}/sheets`, 'sheets/', /\.yaml$/),
  ]);
}

/** Prices a book given as files. */
export function priceFiles(book: ReadonlyMap<string, string>): Priced {
  return priceBook({ book, ...shipped });
}
