import type { BookSchema } from '../book/readBook.ts';
import type { FieldSchema, TableSchema } from '../book/schema.ts';

/** The file of the book that holds its single figures. */
export const recordFile = 'book.yaml';

/** What the book's files and their columns accept. */
export class Fields {
  readonly #tables: ReadonlyMap<string, TableSchema>;
  readonly #record: ReadonlyMap<string, FieldSchema>;

  constructor(schema: BookSchema) {
    this.#tables = new Map(schema.tables.map((table) => [`${table.table}.csv`, table]));
    this.#record = new Map(schema.record.map((field) => [field.id, field]));
  }

  table(file: string): TableSchema | undefined {
    return this.#tables.get(file);
  }

  /** What a column takes; undefined where these sheets do not know it. */
  field(file: string | undefined, column: string | undefined): FieldSchema | undefined {
    if (file === undefined || column === undefined) return undefined;
    if (file === recordFile) return this.#record.get(column);
    const table = this.#tables.get(file);
    const field = table?.fields.find(({ id }) => id === column);
    if (field === undefined) return undefined;
    // As tables are read: what names a row of another one is told of there.
    return field.of !== undefined || field.id === table?.belongs?.column ? { ...field, kind: 'ref' } : field;
  }
}
