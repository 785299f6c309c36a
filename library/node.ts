/** What the library offers where there is a file system: `import { ... } from "sennit/node"`. */
import { existsSync, readdirSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { decodeText } from '../engine/index.ts';
import { type LoadedSolver, loadSolver } from './loadSolver.ts';

/**
 * Reads the folder of a book: its tables, `book.yaml` and what is in `sheets/`.
 *
 * @returns the texts of its files by name, as every question of `sennit` takes them
 * @throws what the file system says where the folder or a file in it cannot be read
 */
export function readBookFolder(folder: string): ReadonlyMap<string, string> {
  const sheets = join(folder, 'sheets');
  const own = textFiles(folder, '', /\.(csv|ya?ml)$/i);
  return new Map([...own, ...(existsSync(sheets) ? textFiles(sheets, 'sheets/', /\.ya?ml$/i) : [])]);
}

/** In name order; hidden files are other programs' locks and shadows. */
function textFiles(folder: string, prefix: string, wanted: RegExp): [string, string][] {
  return readdirSync(folder)
    .filter((name) => !name.startsWith('.') && wanted.test(name))
    .sort()
    .map((name): [string, string] => {
      const path = join(folder, name);
      // A folder of such a name is told by a stroke, and the reader of the book names it.
      return statSync(path).isDirectory()
        ? [`${prefix}${name}/`, '']
        : [prefix + name, decodeText(readFileSync(path))];
    });
}

/** Loads the solver that comes with this package. */
export async function shippedSolver(): Promise<LoadedSolver> {
  return loadSolver(readFileSync(fileURLToPath(new URL('./highs.wasm', import.meta.url))));
}
