import type { Book } from '../book/book.ts';
import type { Place } from '../book/problems/problem.ts';

/** One row of a table of the book, with its place. */
export interface Row {
  readonly place: Place;
  /** Blank cells are null: missing, which is not zero. */
  number(column: string): number | null;
  /** Blank cells are empty text. */
  text(column: string): string;
}

/** The rows of a table that have a day, as every row of what happened must; others have been told. */
export function datedRows(book: Book, name: string): (Row & { readonly day: number })[] {
  return rowsOf(book, name).flatMap((row) => {
    const day = row.number('date');
    return day === null ? [] : [{ ...row, day }];
  });
}

export function rowsOf(book: Book, name: string): Row[] {
  const table = book.tables.get(name);
  return Array.from({ length: table?.rowCount ?? 0 }, (_, at) => ({
    place: table?.places[at] ?? { file: `${name}.csv` },
    number: (column: string): number | null => {
      const value = table?.columns.get(column)?.[at];
      return typeof value === 'number' ? value : null;
    },
    text: (column: string): string => String(table?.columns.get(column)?.[at] ?? ''),
  }));
}
