import { type Book, type BookValue, joinKeys, sameKey } from '../book/book.ts';
import type { Place } from '../book/problems/problem.ts';
import { type ColumnDefinition, madeForm, type SheetDefinition } from './definition.ts';
import type { CellValue } from './plan.ts';
import { headingRow } from './planIndex.ts';

/** The rows of a sheet before its formulas: the values it reads, by column, and where each row came from. */
export interface SheetRows {
  readonly rowCount: number;
  readonly inputs: ReadonlyMap<string, readonly CellValue[]>;
  readonly places: readonly Place[];
  readonly fixed: readonly string[];
  /** In a complete crossing of two sheets: how many rows each row of the first has. */
  readonly inner?: number;
}

/** Rows of sheets that stand earlier in the workbook, which later sheets repeat or cross. */
export type EarlierRows = ReadonlyMap<
  string,
  { readonly definition: SheetDefinition; readonly rows: SheetRows }
>;

/** Lays out the rows of a sheet from the book's tables and the rows of earlier sheets. */
export function layRows(
  definition: SheetDefinition,
  read: readonly ColumnDefinition[],
  book: Book,
  earlier: EarlierRows,
): SheetRows {
  const source = definition.rows;
  if ('form' in source && source.form === madeForm) {
    const table = book.tables.get(definition.sheet);
    return {
      rowCount: 1,
      inputs: new Map(read.map(({ id }) => [id, [table?.columns.get(id)?.[0] ?? null]])),
      places: [{ file: `the sheet ${definition.title}` }],
      fixed: [],
    };
  }
  if ('form' in source) {
    return {
      rowCount: 1,
      inputs: new Map(read.map((column) => [column.id, [book.record.get(column.id) ?? null]])),
      // A record that is all formulas stands in no file of the maker's: it is found in the workbook.
      places: [{ file: source.form === 'none' ? `the sheet ${definition.title}` : source.form }],
      fixed: [],
    };
  }
  if ('table' in source) return tableRows(definition, source.table, read, book, earlier);
  if ('made' in source) {
    const table = book.tables.get(source.made);
    return {
      rowCount: table?.rowCount ?? 0,
      inputs: new Map(read.map(({ id }) => [id, table?.columns.get(id) ?? []])),
      // No file of the maker's holds these rows: they are found in the workbook.
      places: Array.from({ length: table?.rowCount ?? 0 }, (_, row) => ({
        file: `the sheet ${definition.title}`,
        row: headingRow + 1 + row,
      })),
      fixed: source.fixed ?? [],
    };
  }
  if ('list' in source) {
    return {
      rowCount: source.list.length,
      inputs: new Map(
        read.map(({ id }) => [
          id,
          // Own entries only: every object has a `constructor` that nobody wrote.
          source.list.map((row) => (Object.hasOwn(row, id) ? (row[id] ?? null) : null)),
        ]),
      ),
      places: source.list.map(() => definition.at),
      fixed: [],
    };
  }
  if ('each' in source) {
    const parent = keyColumn(source.each, earlier);
    return {
      ...keysOnly(
        [definition.key[0]!],
        parent.values.map((key) => [key]),
        parent.places,
      ),
      fixed: [],
    };
  }
  const outer = keyColumn(source.cross, earlier);
  const inner = typeof source.with === 'string' ? keyColumn(source.with, earlier).values : source.with;
  const pairs = outer.values.flatMap((one, index) =>
    inner.map((other) => ({ keys: [one, other], place: outer.places[index] ?? definition.at })),
  );
  const crossed = keysOnly(
    definition.key,
    pairs.map((pair) => pair.keys),
    pairs.map((pair) => pair.place),
  );
  const inputs = new Map(crossed.inputs);
  for (const column of read) {
    if (column.from !== undefined)
      inputs.set(
        column.id,
        sparseColumn(
          definition,
          column,
          book,
          pairs.map((pair) => pair.keys),
        ),
      );
  }
  if ('as' in source) return { ...crossed, inputs, fixed: [source.as] };
  return { ...crossed, inputs, fixed: [], inner: inner.length };
}

function keysOnly(
  key: readonly string[],
  tuples: readonly (readonly CellValue[])[],
  places: readonly Place[],
): Omit<SheetRows, 'fixed'> {
  return {
    rowCount: tuples.length,
    inputs: new Map(key.map((id, at) => [id, tuples.map((tuple) => tuple[at] ?? null)])),
    places,
  };
}

function keyColumn(
  sheet: string,
  earlier: EarlierRows,
): { values: readonly CellValue[]; places: readonly Place[] } {
  const found = earlier.get(sheet);
  return {
    values: found?.rows.inputs.get(found.definition.key[0]!) ?? [],
    places: found?.rows.places ?? [],
  };
}

/** Rows of a book table; those that belong to an owner stand together, in the owners' order. */
function tableRows(
  definition: SheetDefinition,
  name: string,
  read: readonly ColumnDefinition[],
  book: Book,
  earlier: EarlierRows,
): SheetRows {
  const table = book.tables.get(name);
  const order = Array.from({ length: table?.rowCount ?? 0 }, (_, row) => row);
  if (definition.belongs !== undefined && table !== undefined) {
    const rank = new Map<string, number>();
    for (const owner of definition.belongs.to) {
      for (const key of keyColumn(owner, earlier).values) rank.set(sameKey(String(key)), rank.size);
    }
    const owners = table.columns.get(definition.belongs.column) ?? [];
    const rankOf = (row: number): number => rank.get(sameKey(String(owners[row]))) ?? rank.size;
    order.sort((one, other) => rankOf(one) - rankOf(other) || one - other);
  }
  return {
    rowCount: order.length,
    inputs: new Map(
      read.map((column) => [column.id, order.map((row) => table?.columns.get(column.id)?.[row] ?? null)]),
    ),
    places: order.map((row) => table?.places[row] ?? { file: `${name}.csv` }),
    fixed: [],
  };
}

/** A column filled from a table that has rows only for some keys. */
function sparseColumn(
  definition: SheetDefinition,
  column: ColumnDefinition,
  book: Book,
  tuples: readonly (readonly CellValue[])[],
): CellValue[] {
  const table = book.tables.get(column.from!);
  const values = table?.columns.get(column.column ?? column.id) ?? [];
  const rows = new Map<string, number>();
  for (let row = 0; row < (table?.rowCount ?? 0); row += 1) {
    rows.set(joinKeys(definition.key.map((id) => table?.columns.get(id)?.[row])), row);
  }
  return tuples.map((tuple) => {
    const row = rows.get(joinKeys(tuple as BookValue[]));
    return row === undefined ? null : (values[row] ?? null);
  });
}
