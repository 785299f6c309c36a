import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Values } from '../../engine/calc/values.ts';
import { type Priced, priceBook, type Source } from '../../engine/priceBook.ts';
import type { Plan } from '../../engine/sheets/plan.ts';
import { readSheetFiles } from '../../engine/sheets/readDefinitions.ts';

/** A book's files by name, as the engine takes them. */
export type BookText = ReadonlyMap<string, string>;

const templates = join(import.meta.dirname, '../../templates');

function textFiles(folder: string, prefix: string): [string, string][] {
  if (!existsSync(folder)) return [];
  return readdirSync(folder)
    .filter((name) => /\.(yaml|csv)$/.test(name))
    .sort()
    .map((name) => [prefix + name, readFileSync(join(folder, name), 'utf8')]);
}

/** Every book that is shipped; a new folder adds itself to the tests. */
export const demoBooks: readonly string[] = readdirSync(join(templates, 'books')).sort();

/** The files of a demo book, by name within its folder. */
export function demoBook(name: string): Map<string, string> {
  const folder = join(templates, 'books', name);
  return new Map([...textFiles(folder, ''), ...textFiles(join(folder, 'sheets'), 'sheets/')]);
}

/** The shipped sheets and tables. */
export const shipped: Omit<Source, 'book'> = {
  sheets: readSheetFiles(new Map(textFiles(join(templates, 'sheets'), 'templates/sheets/'))),
  tables: new Map(textFiles(templates, '')),
};

export function sourceOf(book: BookText): Source {
  return { book, ...shipped };
}

/** Prices a book given as files. */
export function priceFiles(book: BookText): Priced {
  return priceBook(sourceOf(book));
}

/** A calculated book; throws with its problems where there are errors. */
export function pricedBook(book: BookText): { plan: Plan; values: Values } {
  const priced = priceFiles(book);
  const { plan, values } = priced;
  if (plan === undefined || values === undefined) {
    throw new Error(priced.problems.map((each) => `${each.where.file}: ${each.message}`).join('\n'));
  }
  return { plan, values };
}
