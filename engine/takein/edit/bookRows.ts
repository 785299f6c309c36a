import type { Book, BookValue, Table } from '../../book/book.ts';
import type { Place } from '../../book/problems/problem.ts';
import { keyOf } from '../compare/sameValue.ts';

/** The rows of one of the book's tables as they are now, found by the names of a sheet's rows. */
export class BookRows {
  readonly table: Table | undefined;
  readonly #byKey = new Map<string, number[]>();
  readonly #byPlace = new Map<string, number[]>();

  /** @param key columns that name a row, as the sheet has them */
  constructor(book: Book, file: string, key: readonly string[]) {
    this.table = book.tables.get(file.replace(/\.csv$/, ''));
    for (let row = 0; row < (this.table?.rowCount ?? 0); row += 1) {
      add(this.#byKey, keyOf(key.map((id) => this.value(row, id))), row);
      add(this.#byPlace, placeId(this.place(row)), row);
    }
  }

  value(row: number, column: string): BookValue {
    return this.table?.columns.get(column)?.[row] ?? null;
  }

  place(row: number): Place {
    return this.table?.places[row] ?? { file: '' };
  }

  /** The row of that key; of several, the one that stands in the same place among them. */
  find(key: string, at = 0): number | undefined {
    return this.#byKey.get(key)?.[at];
  }

  count(key: string): number {
    return this.#byKey.get(key)?.length ?? 0;
  }

  /** All rows that come from the same row of the maker's: one a size of a run, or itself alone. */
  siblings(row: number): readonly number[] {
    return this.#byPlace.get(placeId(this.place(row))) ?? [row];
  }

  /** Whether the row comes with Sennit, and the book has none of its own for it. */
  isShipped(row: number): boolean {
    return this.place(row).file.startsWith('templates/');
  }
}

function placeId({ file, row }: Place): string {
  return `${file}|${row}`;
}

function add(map: Map<string, number[]>, key: string, row: number): void {
  const rows = map.get(key);
  if (rows === undefined) map.set(key, [row]);
  else rows.push(row);
}
