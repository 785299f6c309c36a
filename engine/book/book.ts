import type { Place } from './problems/problem.ts';
import type { Settings } from './settings.ts';

/** What a cell of the book holds. `null` is blank: missing, which is not zero. */
export type BookValue = number | string | null;

/** Text of the book's files by name within the folder, such as `materials.csv`. */
export type BookFiles = ReadonlyMap<string, string>;

/** A table of the book, by column, in the units the sheets hold. */
export interface Table {
  readonly name: string;
  readonly rowCount: number;
  readonly columns: ReadonlyMap<string, readonly BookValue[]>;
  /** Where each row stands. */
  readonly places: readonly Place[];
}

/** The maker's figures: read, checked, in one set of units. */
export interface Book {
  readonly settings: Settings;
  /** Figures of `book.yaml` by key. */
  readonly record: ReadonlyMap<string, BookValue>;
  readonly tables: ReadonlyMap<string, Table>;
}

/** Keys are compared as spreadsheet look-ups compare text: without regard to capitals. */
export function sameKey(text: string): string {
  return text.toLowerCase();
}

/**
 * A key as the most forgiving spreadsheet program compares it: besides capitals, without regard to ligatures,
 * widths, kana and variation marks (é and e stay two). Two keys of one table must differ even so, or some
 * program would look up the wrong row.
 */
export function alikeKey(text: string): string {
  return text
    .normalize('NFKC')
    .replace(/[\uFE00-\uFE0F]/g, '')
    .replace(/[\u30A1-\u30F6]/g, (kana) => String.fromCharCode(kana.charCodeAt(0) - 0x60))
    .replaceAll('\u0130', 'i')
    .toUpperCase()
    .toLowerCase();
}

/** Several key cells of a row as one text. `|` cannot occur in a key. */
export function joinKeys(keys: readonly (BookValue | undefined)[]): string {
  return keys.map((each) => sameKey(String(each ?? ''))).join('|');
}

/** Names of a row put together to one, as a size run and a size are; null where one of them is blank. */
export function joinNames(names: readonly BookValue[]): string | null {
  return names.some((each) => each === null) ? null : names.join(' ');
}
