import type { Table } from './book.ts';
import type { Place } from './problems/problem.ts';

/** Where a row of a table stands in the book. */
export function placeOf(table: Table, row: number): Place {
  return table.places[row] ?? { file: `${table.name}.csv` };
}
