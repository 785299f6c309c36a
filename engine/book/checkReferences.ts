import { joinKeys, sameKey, type Table } from './book.ts';
import { mendName } from './nearest.ts';
import { type Problem, problem } from './problem.ts';
import type { TableReading } from './readTable.ts';
import type { FieldSchema, TableSchema } from './schema.ts';

/**
 * What no single cell can know: keys that stand twice, names that no other table has, quantities in a
 * unit that their material is not sold by. References are rewritten to the spelling of the key they name.
 */
export function checkReferences(readings: ReadonlyMap<string, TableReading>, schemas: readonly TableSchema[]): Problem[] {
  const problems: Problem[] = [];
  const names = new Map<string, Map<string, string>>();
  for (const schema of schemas) {
    const table = readings.get(schema.table)?.table;
    if (table === undefined) continue;
    problems.push(...twinKeys(table, schema));
    const key = schema.key[0];
    if (schema.key.length === 1 && key !== undefined) names.set(schema.table, keyNames(table, key));
  }
  for (const schema of schemas) {
    const reading = readings.get(schema.table);
    if (reading === undefined) continue;
    for (const field of schema.fields) {
      if (field.of !== undefined) {
        problems.push(...strangers(reading.table, field.id, [field.of], names));
      }
      if (field.measuredBy !== undefined || (field.kind === 'quantity' && schema.table === 'materials')) {
        problems.push(...wrongUnits(reading, field, readings));
      }
    }
    if (schema.belongs !== undefined) {
      problems.push(...strangers(reading.table, schema.belongs.column, schema.belongs.to, names));
    }
  }
  return problems;
}

function keyNames(table: Table, key: string): Map<string, string> {
  const names = new Map<string, string>();
  for (const value of table.columns.get(key) ?? []) if (value !== null) names.set(sameKey(String(value)), String(value));
  return names;
}

function twinKeys(table: Table, schema: TableSchema): Problem[] {
  const problems: Problem[] = [];
  const first = new Map<string, number>();
  for (let row = 0; row < table.rowCount; row += 1) {
    const cells = schema.key.map((id) => table.columns.get(id)?.[row] ?? null);
    const place = table.places[row] ?? { file: `${table.name}.csv` };
    const blank = schema.key.find((_, index) => cells[index] === null);
    if (blank !== undefined) {
      const known = schema.fields.find((field) => field.id === blank);
      // A required column has reported its own blanks.
      if (known !== undefined && !known.required && table.columns.has(blank)) {
        problems.push(
          problem('cell-missing', { ...place, column: blank }, `This row has no ${blank} to be known by.`, {
            accepted: `a ${blank} of its own`,
            mend: 'Name the row, or remove it.',
          }),
        );
      }
      continue;
    }
    const joined = joinKeys(cells);
    const earlier = first.get(joined);
    if (earlier === undefined) {
      first.set(joined, row);
      continue;
    }
    const shown = cells.join(', ');
    problems.push(
      problem('key-twice', { ...place, column: schema.key.join(', ') }, `“${shown}” stands in row ${table.places[earlier]?.row ?? '?'} already.`, {
        found: shown,
        accepted: `each ${schema.key.join(' and ')} once, capitals aside`,
        mend: 'Rename or remove one of the two rows.',
      }),
    );
  }
  return problems;
}

function strangers(
  table: Table,
  column: string,
  tables: readonly string[],
  names: ReadonlyMap<string, ReadonlyMap<string, string>>,
): Problem[] {
  const problems: Problem[] = [];
  const known = tables.flatMap((name) => [...(names.get(name) ?? [])]);
  const spelling = new Map(known);
  const values = table.columns.get(column) as (string | number | null)[] | undefined;
  values?.forEach((value, row) => {
    if (value === null) return;
    const proper = spelling.get(sameKey(String(value)));
    if (proper !== undefined) {
      values[row] = proper;
      return;
    }
    problems.push(
      problem('reference-unknown', { ...(table.places[row] ?? { file: table.name }), column }, `“${value}” is not in ${tables.join(' or ')}.`, {
        found: String(value),
        accepted: `a name from ${tables.join(' or ')}`,
        mend: mendName(String(value), [...spelling.values()]),
      }),
    );
  });
  return problems;
}

/** A quantity with a length unit of something sold by the piece is a slip. */
function wrongUnits(reading: TableReading, field: FieldSchema, readings: ReadonlyMap<string, TableReading>): Problem[] {
  const materials = readings.get('materials')?.table;
  const soldBy = materials?.columns.get('sold_by');
  const keys = materials?.columns.get('material');
  if (soldBy === undefined || keys === undefined) return [];
  const way = new Map(keys.map((key, row) => [sameKey(String(key)), soldBy[row]]));
  const named = reading.table.columns.get(field.measuredBy ?? 'material') ?? [];
  const problems: Problem[] = [];
  for (const row of reading.withUnit.get(field.id) ?? []) {
    if (way.get(sameKey(String(named[row]))) !== 'piece') continue;
    problems.push(
      problem('wrong-unit', { ...(reading.table.places[row] ?? { file: reading.table.name }), column: field.id }, `“${named[row]}” is sold by the piece, and this is a length.`, {
        accepted: 'a number of pieces, such as 1 or 100',
        mend: 'Write how many, or set sold_by to length in materials.',
      }),
    );
  }
  return problems;
}
