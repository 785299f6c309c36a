import { sameKey, type Table } from '../book.ts';
import { mendName } from '../problems/nearest.ts';
import { type Problem, problem } from '../problems/problem.ts';
import type { TableReading } from '../readTable.ts';
import { placeOf } from '../rowPlace.ts';
import type { TableSchema } from '../schema.ts';
import type { SizesOf } from '../sizes/sizedProducts.ts';
import { twinKeys } from './twinKeys.ts';
import { twinNames } from './twinNames.ts';
import { weightsOfLengths, wrongUnits } from './wrongUnits.ts';

/**
 * What no single cell can know: keys that stand twice, names that no other table has, quantities in a
 * unit that their material is not sold by. References are rewritten to the spelling of the key they name.
 *
 * @param sizesOf products that stand for their sizes, and so are no names themselves
 */
export function checkReferences(
  readings: ReadonlyMap<string, TableReading>,
  schemas: readonly TableSchema[],
  sizesOf: SizesOf = new Map(),
): Problem[] {
  const problems: Problem[] = [];
  const names = new Map<string, ReadonlyMap<string, string>>();
  for (const schema of schemas) {
    const reading = readings.get(schema.table);
    if (reading === undefined) continue;
    for (const each of twinKeys(reading, schema)) problems.push(each);
    for (const each of twinNames(reading.table, schema)) problems.push(each);
    const key = schema.key[0];
    if (schema.key.length !== 1 || key === undefined) continue;
    // Where the names themselves could not be read, to call every use of them unknown would only add noise.
    const unread =
      reading.torn || (schema.needed && (reading.table.rowCount === 0 || !reading.present.has(key)));
    if (!unread) names.set(schema.table, keyNames(reading.table, key));
  }
  for (const schema of schemas) {
    const reading = readings.get(schema.table);
    if (reading === undefined) continue;
    const columns = schema.fields.flatMap((field) =>
      field.of === undefined ? [] : [{ column: field.id, to: [field.of] }],
    );
    if (schema.belongs !== undefined)
      columns.push({ column: schema.belongs.column, to: [...schema.belongs.to] });
    for (const each of strangers(reading.table, columns, names, sizesOf)) problems.push(each);
    if (schema.belongs !== undefined)
      for (const each of twoOwners(reading.table, schema.belongs, names)) problems.push(each);
    for (const field of schema.fields) {
      if (field.measuredBy !== undefined || (field.kind === 'quantity' && schema.table === 'materials')) {
        for (const each of wrongUnits(reading, field, readings)) problems.push(each);
      }
      if (field.kind === 'weight_per_unit')
        for (const each of weightsOfLengths(reading, field)) problems.push(each);
    }
  }
  return problems;
}

function keyNames(table: Table, key: string): Map<string, string> {
  const names = new Map<string, string>();
  for (const value of table.columns.get(key) ?? [])
    if (value !== null) names.set(sameKey(String(value)), String(value));
  return names;
}

interface NamingColumn {
  readonly column: string;
  readonly to: readonly string[];
}

/** Names that lead nowhere, each told once a table with all the rows that use it. */
function strangers(
  table: Table,
  columns: readonly NamingColumn[],
  names: ReadonlyMap<string, ReadonlyMap<string, string>>,
  sizesOf: SizesOf,
): Problem[] {
  const unknown = new Map<
    string,
    {
      value: string;
      to: readonly string[];
      spelling: ReadonlyMap<string, string>;
      at: { row: number; column: string }[];
    }
  >();
  for (const { column, to } of columns) {
    if (to.some((name) => !names.has(name))) continue;
    const spelling = new Map(to.flatMap((name) => [...(names.get(name) ?? [])]));
    const values = (table.columns.get(column) ?? []) as (string | number | null)[];
    values.forEach((value, row) => {
      if (value === null) return;
      const proper = spelling.get(sameKey(String(value)));
      if (proper !== undefined) {
        values[row] = proper;
        return;
      }
      const id = `${sameKey(String(value))}|${to.join('|')}`;
      const known = unknown.get(id);
      if (known === undefined) unknown.set(id, { value: String(value), to, spelling, at: [{ row, column }] });
      else known.at.push({ row, column });
    });
  }
  return [...unknown.values()].map(({ value, to, spelling, at }) => {
    const [first, ...others] = [...at].sort((one, other) => one.row - other.row);
    const place = { ...placeOf(table, first?.row ?? 0), column: first?.column ?? '' };
    const rows = [
      ...new Set(
        others
          .map(({ row }) => table.places[row]?.row)
          .filter((row) => row !== undefined && row !== place.row),
      ),
    ];
    const again = rows.length === 0 ? '' : ` It is used in ${rowsText(rows as number[])} too.`;
    const sizes = to.includes('products') ? sizesOf.get(sameKey(value)) : undefined;
    if (sizes !== undefined) {
      const message = `“${value}” comes in sizes, and one of them is needed here.${again}`;
      const accepted = `one of ${sizes.names.join(', ')}`;
      return problem('reference-unknown', place, message, { found: value, accepted, mend: 'Name the size.' });
    }
    const known = [...spelling.values(), ...(to.includes('products') ? sizesOf.values() : [])];
    return problem('reference-unknown', place, `“${value}” is not in ${to.join(' or ')}.${again}`, {
      found: value,
      accepted: `a name from ${to.join(' or ')}`,
      mend: mendName(
        value,
        known.map((each) => (typeof each === 'string' ? each : each.product)),
      ),
    });
  });
}

/** A row that belongs to a name which two tables have would count for both. */
function twoOwners(
  table: Table,
  belongs: NonNullable<TableSchema['belongs']>,
  names: ReadonlyMap<string, ReadonlyMap<string, string>>,
): Problem[] {
  if (belongs.to.length < 2) return [];
  const told = new Set<string>();
  return (table.columns.get(belongs.column) ?? []).flatMap((value, row) => {
    const key = sameKey(String(value));
    const owners = belongs.to.filter((name) => names.get(name)?.has(key));
    if (value === null || owners.length < 2 || told.has(key)) return [];
    told.add(key);
    const place = { ...placeOf(table, row), column: belongs.column };
    return [
      problem(
        'key-twice',
        place,
        `“${value}” is in ${owners.join(' and in ')}, so this row would count for both.`,
        {
          found: String(value),
          accepted: 'names that only one of the two tables has',
          mend: 'Rename one of the two.',
        },
      ),
    ];
  });
}

function rowsText(rows: readonly number[]): string {
  const some = rows.slice(0, 8).join(', ');
  if (rows.length > 8) return `rows ${some} and ${rows.length - 8} more`;
  return `${rows.length === 1 ? 'row' : 'rows'} ${some}`;
}
