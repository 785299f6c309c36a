import { type BookValue, joinKeys, type Table } from './book.ts';
import type { WrittenUnit } from './cellReading.ts';
import type { TableReading } from './readTable.ts';

/**
 * A shipped table with the book's own rows: a row of the book replaces the shipped one of the same key
 * whole, and new keys follow.
 */
export function mergeShipped(shipped: TableReading, own: TableReading, key: readonly string[]): TableReading {
  const keyOf = (table: Table, row: number): string =>
    joinKeys(key.map((id) => table.columns.get(id)?.[row]));
  const ownRow = new Map<string, number>();
  for (let row = 0; row < own.table.rowCount; row += 1) ownRow.set(keyOf(own.table, row), row);
  const picks: { from: TableReading; row: number }[] = [];
  const replaced = new Set<string>();
  for (let row = 0; row < shipped.table.rowCount; row += 1) {
    const name = keyOf(shipped.table, row);
    const instead = ownRow.get(name);
    if (instead !== undefined) replaced.add(name);
    picks.push(instead === undefined ? { from: shipped, row } : { from: own, row: instead });
  }
  for (let row = 0; row < own.table.rowCount; row += 1) {
    // Twins stay in, so that the check for keys that stand twice can name them.
    const name = keyOf(own.table, row);
    if (!replaced.has(name) || ownRow.get(name) !== row) picks.push({ from: own, row });
  }
  const columns = new Map<string, BookValue[]>();
  for (const id of shipped.table.columns.keys()) {
    columns.set(
      id,
      picks.map(({ from, row }) => from.table.columns.get(id)?.[row] ?? null),
    );
  }
  const withUnit = new Map<string, Map<number, WrittenUnit>>();
  for (const id of new Set([...shipped.withUnit.keys(), ...own.withUnit.keys()])) {
    // By where the rows stand now.
    const rows = new Map<number, WrittenUnit>();
    picks.forEach(({ from, row }, at) => {
      const unit = from.withUnit.get(id)?.get(row);
      if (unit !== undefined) rows.set(at, unit);
    });
    withUnit.set(id, rows);
  }
  return {
    table: {
      name: shipped.table.name,
      rowCount: picks.length,
      columns,
      places: picks.map(({ from, row }) => from.table.places[row]!),
    },
    problems: own.problems,
    withUnit,
    present: own.present,
    torn: own.torn,
  };
}
