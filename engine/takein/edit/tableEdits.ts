import type { BookValue } from '../../book/book.ts';
import { type CsvFile, parseCsv } from '../../book/files/csvFile.ts';
import { editRows, type RowEdits } from '../../book/files/editRows.ts';
import type { Place, Problem } from '../../book/problems/problem.ts';
import type { FieldSchema } from '../../book/schema.ts';
import type { Settings } from '../../book/settings.ts';
import type { AddedRow, CellChange, RemovedRow } from '../compare/comparison.ts';
import type { Fields } from '../fields.ts';
import { isWords } from '../read/cellValue.ts';
import { valueText } from '../valueText.ts';
import type { BookRows } from './bookRows.ts';
import { shippedRow } from './shippedRow.ts';
import { isAlike, type SoldBy, soldByOf } from './soldBy.ts';

/** A table of the book to be edited, and what it takes to write into it as its maker does. */
export interface TableToEdit {
  readonly file: string;
  readonly text: string;
  /** The table of that name which comes with Sennit. */
  readonly shipped: string | undefined;
  readonly rows: BookRows;
  readonly fields: Fields;
  readonly settings: Settings;
  readonly soldBy: SoldBy;
}

export interface TableEdit {
  readonly text: string;
  readonly problems: readonly Problem[];
  /** Why each row of the new text stands there, in their order: the row it was, or what it came from. */
  readonly rows: readonly (number | CellChange | AddedRow)[];
}

/** Edits of one table. */
export function editTable(
  table: TableToEdit,
  changes: readonly CellChange[],
  added: readonly AddedRow[],
  removed: readonly RemovedRow[],
): TableEdit {
  const csv = parseCsv(table.file, table.text);
  const problems: Problem[] = [];
  const set = new Map<number, Map<string, string>>();
  const fresh = new Map<string, Map<string, string>>();
  const causes = new Map<Map<string, string>, CellChange>();
  for (const change of changes) {
    const cells = cellsFor(table, csv, change, set, fresh, problems);
    if (!causes.has(cells)) causes.set(cells, change);
    const { field } = change;
    const model = cells.get(change.column) ?? textAt(csv, rowOf(table, change), change.column);
    const at = rowOf(table, change);
    const sold = soldByOf(field, table, (column) => cells.get(column) ?? textAt(csv, at, column));
    const cell = { ...change, value: change.after };
    const text = change.isBlank ? '' : written(table, csv, cell, model, problems, sold);
    if (text !== undefined) cells.set(change.column, text);
  }
  const add = [...fresh.values()];
  const from = add.flatMap((cells) => causes.get(cells) ?? []);
  for (const { cells } of added) {
    const texts = new Map<string, string>();
    const held = new Map(cells.map((each) => [each.field.id, String(each.value ?? '')]));
    for (const cell of cells) {
      const { field } = cell;
      const sold = soldByOf(field, table, (column) => held.get(column) ?? '');
      const text = written(table, csv, cell, '', problems, sold);
      if (text !== undefined && text !== '') texts.set(field.id, text);
    }
    add.push(texts);
  }
  const remove = new Set(
    removed.flatMap(({ at }) => {
      const { row } = table.rows.place(at);
      return row === undefined ? [] : [row];
    }),
  );
  const edits: RowEdits = { set, remove, add: add.map((cells) => known(csv, cells)) };
  const rows = [...csv.rows.flatMap(({ row }) => (remove.has(row) ? [] : [row])), ...from, ...added];
  const separator = table.settings.decimal === 'comma' ? ';' : ',';
  const columns = csv.headings.length > 0 ? [] : [...(add[0]?.keys() ?? [])];
  return { text: editRows(table.text, edits, columns, separator), problems, rows };
}

/** The cells in which a change is written: those of its row, or of a row that is made for it. */
function cellsFor(
  table: TableToEdit,
  csv: CsvFile,
  change: CellChange,
  set: Map<number, Map<string, string>>,
  fresh: Map<string, Map<string, string>>,
  problems: Problem[],
): Map<string, string> {
  const { target } = change;
  const row = rowOf(table, change);
  if (row !== undefined) {
    const cells = set.get(row) ?? new Map<string, string>();
    set.set(row, cells);
    return cells;
  }
  const at = target.kind === 'line' ? undefined : target.row;
  const id = target.kind === 'pair' ? JSON.stringify([...target.key.values()]) : `row ${String(at)}`;
  const known = fresh.get(id);
  if (known !== undefined) return known;
  const cells = new Map<string, string>();
  if (target.kind === 'pair') {
    const like = target.like === undefined ? undefined : table.rows.place(target.like).row;
    if (like !== undefined)
      for (const { id: column } of csv.headings) cells.set(column, textAt(csv, like, column));
    for (const [column, value] of target.key) {
      const field = table.fields.field(table.file, column);
      const text =
        field === undefined
          ? String(value ?? '')
          : written(table, csv, { field, value, where: change.where }, '', problems);
      cells.set(column, text ?? '');
    }
  } else if (at !== undefined && table.shipped !== undefined) {
    const field = (column: string): FieldSchema | undefined => table.fields.field(table.file, column);
    const whole = shippedRow(table.file, table.shipped, table.rows.place(at).row, field, table.settings);
    for (const [column, text] of whole) cells.set(column, text);
  }
  fresh.set(id, cells);
  return cells;
}

/** The row of the file that a change is written in; undefined where it needs one of its own. */
function rowOf({ rows }: TableToEdit, { target }: CellChange): number | undefined {
  const at = target.kind === 'line' ? undefined : target.row;
  return at === undefined || rows.isShipped(at) ? undefined : rows.place(at).row;
}

function textAt(csv: CsvFile, row: number | undefined, column: string): string {
  const at = csv.headings.findIndex(({ id }) => id === column);
  return csv.rows.find((each) => each.row === row)?.cells[at] ?? '';
}

/** What is to be written, and where it stands in the workbook. */
interface Figure {
  readonly field: FieldSchema;
  readonly value: BookValue;
  readonly typed?: string;
  readonly where: Place;
}

/** So many different manners of its column are tried for a figure. */
const mostNeighbours = 20;

/** A value as text, in the manner of the cell or, where that is blank, of another one of its column. */
function written(
  { settings }: TableToEdit,
  csv: CsvFile,
  { field, value, typed, where }: Figure,
  own: string,
  problems: Problem[],
  sold?: 'length' | 'piece',
): string | undefined {
  const at = csv.headings.findIndex(({ id }) => id === field.id);
  const heading = csv.headings[at];
  const unit = heading?.unit ?? heading?.measure;
  const isModel = (text: string): boolean => text !== '' && isAlike(text, field, sold, settings);
  const neighbours = isWords(field.kind)
    ? []
    : [...new Set(csv.rows.map(({ cells }) => cells[at] ?? '').reverse())].filter(isModel);
  const manner = {
    model: own === '' ? (neighbours[0] ?? '') : own,
    neighbours: neighbours.slice(0, mostNeighbours),
    ...(unit === undefined ? {} : { headingUnit: unit }),
    ...(typed === undefined ? {} : { typed }),
    ...(sold === undefined ? {} : { sold }),
  };
  const told = valueText(value, field, settings, manner, where);
  if ('text' in told) return told.text;
  problems.push(told.problem);
  return undefined;
}

/** A blank cell is no reason to give a table a column more. */
function known({ headings }: CsvFile, cells: ReadonlyMap<string, string>): ReadonlyMap<string, string> {
  if (headings.length === 0) return new Map([...cells].filter(([, text]) => text !== ''));
  const ids = new Set(headings.map(({ id }) => id));
  return new Map([...cells].filter(([column, text]) => text !== '' || ids.has(column)));
}
