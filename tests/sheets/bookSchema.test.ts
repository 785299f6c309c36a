import { describe, expect, it } from 'vitest';
import { bookSchema, roleOf } from '../../engine/sheets/bookSchema.ts';
import { make } from './workshop.ts';

describe('bookSchema', () => {
  const { definitions } = make();
  const { record, tables } = bookSchema(definitions);

  it('asks book.yaml for the inputs of forms, and tables for inputs, overrides and keys', () => {
    expect(record.map(({ id }) => id)).toEqual(['wage']);
    expect(tables.find(({ table }) => table === 'goods')?.fields.map(({ id }) => id)).toEqual([
      'good',
      'main',
      'other',
      'length',
    ]);
  });

  it('asks for a sparse table, keyed like the crossed sheet that it fills', () => {
    const sparse = tables.find(({ table }) => table === 'set_tickets');
    expect(sparse?.fields.map(({ id, of }) => [id, of])).toEqual([
      ['good', 'goods'],
      ['shop', 'shops'],
      ['ticket', undefined],
    ]);
    expect(sparse?.key).toEqual(['good', 'shop']);
  });

  it('checks names against the table that a sheet shows, whatever the sheet is called', () => {
    const own =
      'sheet: plans\ntitle: Plans\nanswers: Own.\nrows: { table: runs }\nkey: run\ncolumns:\n  - { id: run, heading: Run, kind: key }\n';
    const uses =
      'sheet: days\ntitle: Days\nanswers: Own.\nrows: { table: days }\nkey: day\ncolumns:\n  - { id: day, heading: Day, kind: key }\n  - { id: run, heading: Run, kind: ref, of: plans }\n';
    const tablesOf = { 'runs.csv': 'run\na\n', 'days.csv': 'day,run\nmonday,A\ntuesday,b\n' };
    expect(make({ own, uses }, tablesOf).problems.map(({ code, where }) => [code, where.row])).toEqual([
      ['reference-unknown', 3],
    ]);
  });

  it('tells the role of a column from its definition, its formula and the key', () => {
    const sheet = definitions.find((each) => each.sheet === 'tickets');
    const roles = sheet?.columns.map((column) => roleOf(column, sheet));
    expect(roles).toEqual(['key', 'key', 'override', 'computed']);
  });
});
