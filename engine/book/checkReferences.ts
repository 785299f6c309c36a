import { sameKey, type Table } from './book.ts';
import { mendName } from './nearest.ts';
import { type Problem, problem } from './problem.ts';
import type { TableReading } from './readTable.ts';
import { placeOf } from './rowPlace.ts';
import type { TableSchema } from './schema.ts';
import type { SizesOf } from './sizedProducts.ts';
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

<<<<<<< HEAD
function twinKeys({ table, present, problems: told }: TableReading, schema: TableSchema): Problem[] {
  const problems: Problem[] = [];
  if (schema.key.length === 0 || schema.key.some((id) => !present.has(id))) return problems;
  // A cell that could not be read stands as blank, and has been told.
  const unread = new Set(told.map(({ where }) => cellName(where, where.column)));
  const first = new Map<string, number>();
  for (let row = 0; row < table.rowCount; row += 1) {
    const cells = schema.key.map((id) => plainFigure(table.columns.get(id)?.[row]));
    const place = placeOf(table, row);
    const blank = schema.key.find((_, index) => cells[index] === null);
    if (blank !== undefined) {
      // A required column has reported its own blanks.
      const isTold =
        schema.fields.find((field) => field.id === blank)?.required === true ||
        unread.has(cellName(place, blank));
      if (!isTold) {
        problems.push(
          problem('cell-missing', { ...place, column: blank }, `This row has no ${blank} to be known by.`, {
            accepted: `a ${blank} of its own`,
            mend: 'Name the row, or remove it.',
          }),
        );
      }
      continue;
    }
    const joined = alikeKey(joinKeys(cells));
    const earlier = first.get(joined);
    if (earlier === undefined) {
      first.set(joined, row);
      continue;
    }
    const shown = shownKey(table, schema, row);
    const other = shownKey(table, schema, earlier);
    const alike =
      sameKey(shown) === sameKey(other)
        ? ''
        : `, as “${other}”: spreadsheet programs cannot tell the two apart`;
    problems.push(
      problem(
        'key-twice',
        { ...place, column: schema.key.join(', ') },
        `“${shown}” stands in row ${table.places[earlier]!.row} already${alike}.`,
        {
          found: shown,
          accepted: `each ${schema.key.join(' and ')} once, capitals aside`,
          mend: 'Rename or remove one of the two rows.',
        },
      ),
    );
  }
  return problems;
}

/** A key as its row is written: days as days. */
function shownKey(table: Table, schema: TableSchema, row: number): string {
  const isDay = (id: string): boolean =>
    schema.fields.some((field) => field.id === id && field.kind === 'date');
  return schema.key
    .map((id) => {
      const value = plainFigure(table.columns.get(id)?.[row]);
      return typeof value === 'number' && isDay(id) ? dayText(value) : value;
    })
    .join(', ');
}

function cellName({ file, row }: Place, column: string | undefined): string {
  return [file, row, column].join('|');
}

/** A figure without the dust of unit conversion: 12 ft and 3.6576 m are one length. */
function plainFigure(value: BookValue | undefined): BookValue {
  return typeof value === 'number' ? Number(value.toPrecision(12)) : (value ?? null);
}

=======
>>>>>>> 42c1a2163ff21064730ee2933af294c8842efb63
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
    const spelling = new Map(to.flatMap((name) => [...names.get(name)!]));
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
    const place = { ...placeOf(table, first!.row), column: first!.column };
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
<<<<<<< HEAD

function placeOf(table: Table, row: number): Place {
  return table.places[row]!;
}

/** The weight of a length, such as 6.6 g/m, for something that is sold by the piece: nobody knows how long a piece is. */
function weightsOfLengths({ table, withUnit }: TableReading, field: FieldSchema): Problem[] {
  const soldBy = table.columns.get('sold_by');
  return [...(withUnit.get(field.id) ?? [])].flatMap(([row, unit]) =>
    unit !== 'by length' || soldBy?.[row] !== 'piece'
      ? []
      : [
          problem(
            'wrong-unit',
            { ...placeOf(table, row), column: field.id },
            'This is sold by the piece, and its weight is given for a length.',
            {
              accepted: 'the weight of one piece, such as 12 g',
              mend: 'Write what one piece weighs, or set sold_by to length.',
            },
          ),
        ],
  );
}

/** A length of something sold by the piece, or pieces of something sold by length: a slip. */
function wrongUnits(
  reading: TableReading,
  field: FieldSchema,
  readings: ReadonlyMap<string, TableReading>,
): Problem[] {
  const materials = readings.get('materials')?.table;
  const soldBy = materials?.columns.get('sold_by');
  const keys = materials?.columns.get('material');
  if (soldBy === undefined || keys === undefined) return [];
  const finished = readings.get('products')?.table.columns.get('product') ?? [];
  const way = new Map<string, BookValue | undefined>([
    ...finished.map((key) => [sameKey(String(key)), 'piece'] as const),
    ...keys.map((key, row) => [sameKey(String(key)), soldBy[row]] as const),
  ]);
  const named = reading.table.columns.get(field.measuredBy ?? 'material') ?? [];
  const problems: Problem[] = [];
  // A row that stands for several sizes is told once.
  const told = new Set<Place>();
  for (const [row, unit] of reading.withUnit.get(field.id) ?? []) {
    const soldAs = named[row] === null ? undefined : way.get(sameKey(String(named[row])));
    const byPiece = soldAs === 'piece';
    if ((!byPiece && soldAs !== 'length') || byPiece === (unit === 'pieces')) continue;
    const place = placeOf(reading.table, row);
    if (told.has(place)) continue;
    told.add(place);
    problems.push(
      problem(
        'wrong-unit',
        { ...place, column: field.id },
        byPiece
          ? `“${named[row]}” is sold by the piece, and this is a length.`
          : `“${named[row]}” is sold by length, and these are pieces.`,
        byPiece
          ? {
              accepted: 'a number of pieces, such as 1 or 100',
              mend: 'Write how many, or set sold_by to length in materials.',
            }
          : {
              accepted: 'a length, such as 100 ft or 30 m',
              mend: 'Write how long it is, or set sold_by to piece in materials.',
            },
      ),
    );
  }
  return problems;
}
=======
>>>>>>> 42c1a2163ff21064730ee2933af294c8842efb63
