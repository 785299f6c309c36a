import { readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { decodeText } from '../../engine/index.ts';
import { reading } from '../hindered.ts';
import { Hindrance } from '../io.ts';
import { inBook } from './inBook.ts';
import { readRegularFile } from './regularFile.ts';

/** A table of ten million characters holds a hundred thousand products; beyond that it is a mistake. */
export const longestFile: { readonly most: number; readonly tooLarge: string } = {
  most: 50_000_000,
  tooLarge: 'is larger than 50 MB; that cannot be a table of a book.',
};
/** All of them together. */
const longestBook = 200_000_000;
/** Tables and sheets of a book; a folder with more is some other folder. */
const mostFiles = 500;

/**
 * The text files of one folder with these endings, in any capitals, by prefix and name, in name order. Where a
 * folder has such a name, it is told by a stroke after it and an empty text.
 *
 * @param within the folder within the book, or nothing
 * @param told what comes before the names of its files, such as `sheets/`
 */
export function textFiles(
  folder: string,
  within: string,
  told: string,
  ...wanted: readonly string[]
): Map<string, string> {
  const files = new Map<string, string>();
  const place = join(
    folder,
    reading(told, () => inBook(folder, within)),
  );
  let all = 0;
  for (const name of reading(told === '' ? folder : told, () => readdirSync(place).sort())) {
    // Other programs leave hidden files behind: locks that lead nowhere, shadows of tables that are not text.
    if (name.startsWith('.') || !wanted.some((ending) => name.toLowerCase().endsWith(ending))) continue;
    const called = told + name;
    const path = join(
      folder,
      reading(called, () => inBook(folder, join(within, name))),
    );
    if (reading(called, () => statSync(path)).isDirectory()) {
      files.set(`${called}/`, '');
      continue;
    }
    const bytes = readRegularFile(called, path, longestFile);
    all += bytes.length;
    if (all > longestBook || files.size >= mostFiles)
      throw new Hindrance(
        `${told === '' ? 'The folder' : told} holds more than ${mostFiles} tables, or more than 200 MB of them; that cannot be a book.\n  Give the folder in which book.yaml stands, and keep other tables elsewhere.`,
      );
    files.set(called, decodeText(bytes));
  }
  return files;
}
