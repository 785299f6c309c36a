import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { monthPeriod } from '../../engine/month/monthPeriod.ts';
import { type MonthBook, monthBook } from '../../engine/monthBook.ts';
import type { MonthSource } from '../../engine/monthHistory.ts';
import { readSheetFiles } from '../../engine/sheets/readDefinitions.ts';
import { type BookText, sourceOf } from './books.ts';

const folder = join(import.meta.dirname, '../../templates/month');

/** The shipped sheets of a month. */
export const monthSheets: MonthSource['sheets'] = readSheetFiles(
  new Map(
    readdirSync(folder)
      .sort()
      .map((name) => [`templates/month/${name}`, readFileSync(join(folder, name), 'utf8')]),
  ),
);

export function sha256(text: string): string {
  return createHash('sha256').update(text, 'utf8').digest('hex');
}

export function monthSource(
  book: BookText,
  closed: ReadonlyMap<string, string> = new Map<string, string>(),
): MonthSource {
  return { source: sourceOf(book), sheets: monthSheets, closed: { files: closed, sha256 } };
}

/** A month of a book; throws with its problems where the book cannot be read. */
export function monthOf(book: BookText, id: string, closed?: ReadonlyMap<string, string>): MonthBook {
  const month = monthPeriod(id);
  if (month === undefined) throw new Error(`${id} is no month`);
  const made = monthBook(monthSource(book, closed), month);
  if ('plan' in made) return made;
  throw new Error(made.problems.map((each) => `${each.where.file}: ${each.message}`).join('\n'));
}
