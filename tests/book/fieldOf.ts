import type { FieldSchema, TableSchema } from '../../engine/book/schema.ts';

/** A field with only what a test is about. */
export function fieldOf(id: string, rest: Partial<FieldSchema> = {}): FieldSchema {
  return { id, kind: 'text', required: false, ...rest };
}

export function tableOf(
  table: string,
  fields: readonly FieldSchema[],
  rest: Partial<TableSchema> = {},
): TableSchema {
  return { table, fields, key: [fields[0]?.id ?? ''], needed: false, ...rest };
}
