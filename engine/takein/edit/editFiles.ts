import { type Book, type BookFiles, type BookValue, sameKey } from '../../book/book.ts';
import { editYaml } from '../../book/files/editYaml.ts';
import { parseYaml } from '../../book/files/yamlFile.ts';
import type { Problem } from '../../book/problems/problem.ts';
import type { AddedRow, CellChange, Comparison, RemovedRow } from '../compare/comparison.ts';
import { recordFile } from '../fields.ts';
import { valueText } from '../valueText.ts';
import type { BookRows } from './bookRows.ts';
import type { SoldBy } from './soldBy.ts';
import { editTable, type TableEdit } from './tableEdits.ts';

export interface EditedFiles {
  /** Only those that differ. */
  readonly files: BookFiles;
  /** Values that cannot be written. */
  readonly problems: readonly Problem[];
  /** For every table that was edited, where its rows come from. */
  readonly rows: ReadonlyMap<string, TableEdit['rows']>;
}

/** The book's files as they would be with all changes, only those that differ; and values that cannot be written. */
export function editFiles(
  { book, fields }: Comparison,
  changes: readonly CellChange[],
  added: readonly AddedRow[],
  removed: readonly RemovedRow[],
  files: BookFiles,
  shipped: BookFiles,
  rowsOf: (file: string) => BookRows,
): EditedFiles {
  const edited = new Map<string, string>();
  const problems: Problem[] = [];
  const rows = new Map<string, TableEdit['rows']>();
  const names = new Set([...changes, ...added, ...removed].map(({ file }) => file));
  for (const file of names) {
    const text = files.get(file) ?? '';
    const own = changes.filter((each) => each.file === file);
    if (file === recordFile) {
      edited.set(file, editRecord(text, own, book.settings, problems));
      continue;
    }
    const table = {
      file,
      text,
      shipped: shipped.get(file),
      rows: rowsOf(file),
      fields,
      settings: book.settings,
      soldBy: soldByName(book, added),
    };
    const result = editTable(
      table,
      own,
      added.filter((each) => each.file === file),
      removed.filter((each) => each.file === file),
    );
    problems.push(...result.problems);
    edited.set(file, result.text);
    rows.set(file, result.rows);
  }
  for (const [file, text] of edited) if (text === files.get(file)) edited.delete(file);
  return { files: edited, problems, rows };
}

/** By what the book's materials are sold, and those that come into it. */
function soldByName(book: Book, added: readonly AddedRow[]): SoldBy {
  const table = book.tables.get('materials');
  const names = table?.columns.get('material') ?? [];
  const words = table?.columns.get('sold_by') ?? [];
  const pairs = names.map((name, row): [BookValue, BookValue] => [name, words[row] ?? null]);
  for (const { file, cells } of added) {
    if (file !== 'materials.csv') continue;
    const held = new Map(cells.map(({ field, value }) => [field.id, value]));
    pairs.push([held.get('material') ?? null, held.get('sold_by') ?? null]);
  }
  return new Map(
    pairs.flatMap(([name, word]) =>
      word === 'length' || word === 'piece' ? [[sameKey(String(name)), word] as const] : [],
    ),
  );
}

function editRecord(
  text: string,
  changes: readonly CellChange[],
  settings: Comparison['book']['settings'],
  problems: Problem[],
): string {
  let result = text;
  for (const { column, field, after, isBlank, typed, where } of changes) {
    const model = parseYaml(recordFile, result).text(column) ?? '';
    const told = isBlank
      ? { text: '' }
      : valueText(after, field, settings, { model, ...(typed === undefined ? {} : { typed }) }, where);
    if ('text' in told) result = editYaml(result, column, told.text);
    else problems.push(told.problem);
  }
  return result;
}
