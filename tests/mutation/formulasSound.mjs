// A fault in a sheet counts only where its formula can still be read and worked out: anything else no maker would ever see.
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';

function textFiles(folder, prefix) {
  return readdirSync(folder)
    .filter((name) => /\.(yaml|csv)$/.test(name))
    .map((name) => [prefix + name, readFileSync(join(folder, name), 'utf8')]);
}

/** Whether the sheets, with one file exchanged, compile without a word against the shipped files. */
export async function isFormulaSound(top, file, text) {
  const { priceBook, readSheetFiles } = await import(pathToFileURL(join(top, 'dist', 'index.js')).href);
  const templates = join(top, 'templates');
  const sheets = readSheetFiles(
    new Map([...textFiles(join(templates, 'sheets'), 'templates/sheets/'), [file, text]]),
  );
  const book = new Map(textFiles(join(templates, 'books', 'starter'), ''));
  const { problems } = priceBook({ book, sheets, tables: new Map(textFiles(templates, '')) });
  return !problems.some(({ where }) => where.file.startsWith('templates/sheets/'));
}
