import type { BookSchema } from '../book/readBook.ts';
import type { FieldSchema, TableSchema } from '../book/schema.ts';
import { type ColumnDefinition, madeForm, type SheetDefinition } from './definition.ts';
import type { ColumnRole } from './plan.ts';

/** What a column is to the maker: as its definition says, or as its formula and key show. */
export function roleOf(column: ColumnDefinition, definition: SheetDefinition): ColumnRole {
  if (definition.key.includes(column.id)) return 'key';
  if (column.role !== undefined) return column.role;
  if (column.formula !== undefined) return 'computed';
  if (column.kind === 'key') return 'key';
  const { rows } = definition;
  return 'made' in rows || ('form' in rows && rows.form === madeForm) ? 'made' : 'input';
}

function isRead(column: ColumnDefinition, definition: SheetDefinition): boolean {
  if (column.joins !== undefined) return false;
  const role = roleOf(column, definition);
  return role === 'input' || role === 'override' || role === 'key';
}

/** Without these there is nothing to price; every other table may be missing, and is then empty. */
const neededTables: readonly string[] = ['materials', 'products', 'channels'];

/**
 * What the sheets want read from a book: the input columns of every sheet that has a table, the figures of
 * `book.yaml`, and the sparse tables (`from:`) that fill override columns of crossed sheets.
 */
export function bookSchema(definitions: readonly SheetDefinition[]): BookSchema {
  const record: FieldSchema[] = [];
  const tables: TableSchema[] = [];
  for (const definition of definitions) {
    const read = definition.columns.filter((column) => isRead(column, definition));
    if ('form' in definition.rows) {
      // What a command puts in is no setting of the book.
      if (definition.rows.form === madeForm) continue;
      record.push(...read.map(fieldOf));
    } else if ('table' in definition.rows) {
      const { table } = definition.rows;
      // A second sheet on the same table is told elsewhere; the first says how it is read.
      if (tables.some((each) => each.table === table)) continue;
      tables.push({
        table,
        fields: read.map(fieldOf),
        key:
          definition.repeats === true
            ? []
            : definition.key.flatMap(
                (id) => definition.columns.find((column) => column.id === id)?.joins ?? [id],
              ),
        joined: definition.columns.flatMap(({ id, joins }) =>
          joins === undefined ? [] : [{ id, from: joins }],
        ),
        eachSize: definition.each_size ?? false,
        needed: neededTables.includes(table),
        ...(definition.apart === true ? { apart: true } : {}),
        ...(definition.belongs === undefined ? {} : { belongs: definition.belongs }),
      });
    } else {
      tables.push(...sparseTables(definition, read));
    }
  }
  return { record, tables: tables.map((table) => namingTables(table, definitions)) };
}

/** Sheets point to sheets, tables to tables: a sheet may have another name than the table it shows. */
function namingTables(schema: TableSchema, definitions: readonly SheetDefinition[]): TableSchema {
  const shown = new Map(
    definitions.map(({ sheet, rows }) => [
      sheet,
      'table' in rows ? rows.table : 'each' in rows ? rows.each : sheet,
    ]),
  );
  const tableOf = (sheet: string): string => shown.get(sheet) ?? sheet;
  return {
    ...schema,
    fields: schema.fields.map((field) =>
      field.of === undefined ? field : { ...field, of: tableOf(field.of) },
    ),
    ...(schema.belongs === undefined
      ? {}
      : { belongs: { ...schema.belongs, to: schema.belongs.to.map(tableOf) } }),
  };
}

/** Tables keyed like a crossed sheet, one row for each cell that is set by hand. */
function sparseTables(definition: SheetDefinition, read: readonly ColumnDefinition[]): TableSchema[] {
  const parents =
    'cross' in definition.rows && !Array.isArray(definition.rows.with)
      ? [definition.rows.cross, definition.rows.with as string]
      : [];
  const byTable = new Map<string, FieldSchema[]>();
  for (const column of read) {
    if (column.from === undefined) continue;
    const fields =
      byTable.get(column.from) ??
      definition.key.map((id, index) => ({
        ...keyField(id),
        ...(parents[index] === undefined ? {} : { of: parents[index] }),
      }));
    fields.push({ ...fieldOf(column), id: column.column ?? column.id });
    byTable.set(column.from, fields);
  }
  return [...byTable].map(([table, fields]) => ({
    table,
    fields,
    key: definition.key,
    eachSize: definition.each_size ?? false,
    needed: false,
  }));
}

function keyField(id: string): FieldSchema {
  return { id, kind: 'key', required: true };
}

function fieldOf(column: ColumnDefinition): FieldSchema {
  return {
    id: column.id,
    kind: column.kind ?? 'text',
    required: column.required,
    ...(column.blank === undefined ? {} : { blank: column.blank }),
    ...(column.blank_metric === undefined ? {} : { blankMetric: column.blank_metric }),
    ...(column.min === undefined ? {} : { min: column.min }),
    ...(column.above === undefined ? {} : { above: column.above }),
    ...(column.max === undefined ? {} : { max: column.max }),
    ...(column.below === undefined ? {} : { below: column.below }),
    ...(column.choices === undefined ? {} : { choices: column.choices }),
    ...(column.of === undefined ? {} : { of: column.of }),
    ...(column.measured_by === undefined ? {} : { measuredBy: column.measured_by }),
    ...(column.blank_from === undefined ? {} : { blankFrom: column.blank_from }),
  };
}
