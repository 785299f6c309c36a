import type { BookValue } from '../book.ts';
import type { WrittenUnit } from '../cellReading.ts';
import type { TableReading } from '../readTable.ts';

/** A row to keep, by where it stands now, and the cells that differ from what is written there. */
export interface Pick {
  readonly row: number;
  readonly cells?: ReadonlyMap<string, BookValue>;
}

/** The table with these rows in this order; a row may stand several times. Places stay those of the maker's own rows. */
export function pickRows(reading: TableReading, picks: readonly Pick[]): TableReading {
  const { table } = reading;
  const columns = new Map<string, BookValue[]>();
  for (const [id, values] of table.columns) {
    columns.set(
      id,
      picks.map(({ row, cells }) => (cells?.has(id) ? (cells.get(id) ?? null) : (values[row] ?? null))),
    );
  }
  const withUnit = new Map<string, Map<number, WrittenUnit>>();
  for (const [id, units] of reading.withUnit) {
    const moved = new Map<number, WrittenUnit>();
    picks.forEach(({ row }, at) => {
      const unit = units.get(row);
      if (unit !== undefined) moved.set(at, unit);
    });
    withUnit.set(id, moved);
  }
  return {
    ...reading,
    table: {
      ...table,
      rowCount: picks.length,
      columns,
      places: picks.map(({ row }) => table.places[row]!),
    },
    withUnit,
  };
}
