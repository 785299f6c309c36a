import { books, sheets, tables } from 'sennit:templates';
import type { Source } from '../engine/index.ts';

/**
 * A book as the texts of its files, by name within its folder: `book.yaml`, `materials.csv`, `sheets/tags.yaml`. A
 * plain object or a map. `book.yaml`, `materials.csv`, `products.csv` and `channels.csv` must be there.
 */
export type BookTexts = Readonly<Record<string, string>> | ReadonlyMap<string, string>;

/** The shipped tables by file name. */
export const shippedTables: ReadonlyMap<string, string> = new Map(Object.entries(tables));

/**
 * A book with the shipped sheets and tables, as the engine takes it.
 *
 * @throws TypeError where a program without types gives something else, such as the name of a folder
 */
export function sourceOf(texts: BookTexts): Source {
  if (typeof (texts as unknown) !== 'object' || texts === null)
    throw new TypeError(
      `A book is given as the texts of its files by name, not as ${JSON.stringify(texts)}. readBookFolder of "sennit/node" reads those of a folder.`,
    );
  const book = texts instanceof Map ? texts : new Map(Object.entries(texts));
  return { book, sheets, tables: shippedTables };
}

/**
 * The starter book, a small invented workshop: the texts of its files, to try things with or to change into one's own.
 *
 * @param name `starter` works in inches and feet, `metric` in centimetres with decimal commas and value-added tax
 */
export function starterBook(name: 'starter' | 'metric' = 'starter'): Readonly<Record<string, string>> {
  return { ...books[name] };
}
