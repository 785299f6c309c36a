import type { BookFiles } from './book/book.ts';
import { parseCsv } from './book/files/csvFile.ts';

/**
 * The weaves that come with Sennit, by name.
 *
 * @param tables the shipped tables by file name
 * @returns the names in the order of the table
 */
export function weaveNames(tables: BookFiles): string[] {
  const { headings, rows } = parseCsv('weaves.csv', tables.get('weaves.csv') ?? '');
  const at = headings.findIndex(({ id }) => id === 'weave');
  return rows.map(({ cells }) => cells[at] ?? '').filter((name) => name !== '');
}
