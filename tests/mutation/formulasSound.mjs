// A fault in a sheet counts only where its formula can still be read and worked out: anything else no maker would ever see.
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { build } from 'esbuild';

function textFiles(folder, prefix) {
  return readdirSync(folder)
    .filter((name) => /\.(yaml|csv)$/.test(name))
    .map((name) => [prefix + name, readFileSync(join(folder, name), 'utf8')]);
}

let engine;

/** The engine as one module that Node can read; packages stay where they are. */
async function loadEngine(top) {
  const outfile = join(top, 'out', 'mutation', 'engine.mjs');
  await build({
    entryPoints: [join(top, 'engine', 'index.ts')],
    bundle: true,
    format: 'esm',
    platform: 'node',
    packages: 'external',
    outfile,
  });
  return import(pathToFileURL(outfile).href);
}

/** Whether the sheets, with one file exchanged, compile without a word against the shipped files. */
export async function isFormulaSound(top, file, text) {
  engine ??= loadEngine(top);
  const { priceBook, readSheetFiles } = await engine;
  const templates = join(top, 'templates');
  const sheets = readSheetFiles(
    new Map([...textFiles(join(templates, 'sheets'), 'templates/sheets/'), [file, text]]),
  );
  const book = new Map(textFiles(join(templates, 'books', 'starter'), ''));
  const { problems } = priceBook({ book, sheets, tables: new Map(textFiles(templates, '')) });
  return !problems.some(({ where }) => where.file.startsWith('templates/sheets/'));
}
