import type { BookValue } from '../../book/book.ts';
import { neededColumns } from '../../book/files/headingPositions.ts';
import { problem } from '../../book/problems/problem.ts';
import { isOpen, type OriginRow } from '../../origin/origin.ts';
import { BookRows } from '../edit/bookRows.ts';
import { type BoundRow, isOwnTable } from '../edit/target.ts';
import { compareAdded } from './compareAdded.ts';
import { compareRow } from './compareCells.ts';
import { type Comparison, fieldOf, rowWords } from './comparison.ts';
import { cellAt, cellName, heldValue, type LocatedSheet } from './locateSheet.ts';
import { type MatchedRows, matchRows } from './matchRows.ts';
import { keyOf, sameValue } from './sameValue.ts';

/** Compares the rows of a table: those that stayed, those that are gone, those that are new. */
export function compareTable(comparison: Comparison, sheet: LocatedSheet): void {
  const { origin } = sheet;
  const known = new Map<string, BookRows>();
  const rowsOf = (file: string): BookRows => {
    const rows = known.get(file) ?? new BookRows(comparison.book, file, origin.key);
    known.set(file, rows);
    return rows;
  };
  const own = origin.table ?? origin.columns.find((column) => isOwnTable(sheet, column))?.file;
  const schema = own === undefined ? undefined : comparison.fields.table(own);
  const needed = schema === undefined ? [] : neededColumns(schema);
  const ids = origin.columns.filter(({ column }) => needed.includes(column ?? '')).map(({ id }) => id);
  const matched = matchRows(sheet, ids);
  tellNames(comparison, sheet, matched);
  const inBook = own === undefined ? () => undefined : finder(sheet, rowsOf(own));
  const rowInBook = new Map(origin.rows.map((row) => [row, inBook(row)]));
  const bind = ({ origin: row, row: at }: { origin: OriginRow; row: number }): BoundRow => ({
    origin: row,
    row: at,
    inBook: rowInBook.get(row),
  });
  const rows = matched.bound.map(bind);
  comparison.places.tables.push({ sheet, rows: [...rows, ...matched.renamed.map(bind)], rowsOf });
  for (const bound of rows) {
    if (own !== undefined && bound.inBook === undefined) compareGone(comparison, sheet, bound, own);
    compareRow(comparison, sheet, bound, rowsOf);
  }
  if (own === undefined || origin.table === undefined) {
    for (const row of matched.removed)
      comparison.leave(
        comparison.place(sheet),
        `The row of ${rowWords(sheet, row)} is not there any more; what the book says of it stays.`,
      );
  } else compareRemoved(comparison, sheet, matched.removed, rowInBook, rowsOf(own));
  compareAdded(comparison, sheet, matched, own === undefined ? undefined : rowsOf(own));
}

/** The row of the book's table for a row of the origin; of several of one key, the one that is alike or in its place. */
function finder(sheet: LocatedSheet, rows: BookRows): (row: OriginRow) => number | undefined {
  const { origin } = sheet;
  const keyed = (row: OriginRow): string => keyOf(origin.key.map((id) => heldValue(sheet, row, id)));
  const groups = new Map<string, OriginRow[]>();
  for (const row of origin.rows) groups.set(keyed(row), [...(groups.get(keyed(row)) ?? []), row]);
  const found = new Map<OriginRow, number | undefined>();
  for (const [key, all] of groups) {
    if (all.length === rows.count(key)) {
      all.forEach((row, at) => {
        found.set(row, rows.find(key, at));
      });
      continue;
    }
    const free = new Set(Array.from({ length: rows.count(key) }, (_, at) => rows.find(key, at) ?? -1));
    for (const row of all) {
      const alike = [...free].find((at) =>
        origin.columns.every(
          (column) =>
            column.file !== origin.table ||
            sameValue(rows.value(at, column.column ?? column.id), heldValue(sheet, row, column.id)),
        ),
      );
      found.set(row, alike);
      if (alike !== undefined) free.delete(alike);
    }
  }
  return (row) => found.get(row);
}

/** A row that the book no longer has: a change of it has nowhere to go. */
function compareGone(
  comparison: Comparison,
  sheet: LocatedSheet,
  { origin, row }: BoundRow,
  file: string,
): void {
  for (const column of sheet.origin.columns) {
    const at = sheet.columns.get(column.id);
    const field = fieldOf(comparison, column);
    if (at === undefined || field === undefined || !isOpen(column) || column.file !== file) continue;
    const value = cellAt(sheet.saved, row, at)?.value ?? null;
    const written = heldValue(sheet, origin, column.id) as BookValue;
    if (sameValue(value, written)) continue;
    const where = comparison.place(sheet, row, at, column.heading);
    if (comparison.prefer === 'workbook') {
      const message = `${file} has no row “${rowWords(sheet, origin)}” any more, and the workbook changes it.`;
      const mend = 'Put the row back into the book first, or enter it in an empty line under the table.';
      comparison.problems.push(
        problem('workbook-conflict', where, message, { found: String(value ?? ''), mend }),
      );
      continue;
    }
    comparison.conflicts.push({
      where,
      row: rowWords(sheet, origin),
      heading: column.heading,
      file,
      kind: column.kind,
      written,
      inWorkbook: typeof value === 'boolean' ? String(value) : value,
      inBook: 'removed',
    });
  }
}

/** Rows that are gone from the workbook go from the book as well, unless it changed them meanwhile. */
function compareRemoved(
  comparison: Comparison,
  sheet: LocatedSheet,
  removed: readonly OriginRow[],
  rowInBook: ReadonlyMap<OriginRow, number | undefined>,
  rows: BookRows,
): void {
  const gone = new Set(removed.map((row) => rowInBook.get(row)));
  const done = new Set<number>();
  for (const row of removed) {
    const at = rowInBook.get(row);
    if (at === undefined || done.has(at)) continue;
    const words = rowWords(sheet, row);
    const where = comparison.place(sheet);
    if (rows.isShipped(at)) {
      comparison.leave(where, `The row of ${words} is not there any more. It comes with Sennit and stays.`);
      continue;
    }
    const siblings = rows.siblings(at);
    for (const each of siblings) done.add(each);
    const left = siblings.filter((each) => !gone.has(each));
    const { file, row: line } = rows.place(at);
    if (left.length > 0) {
      const key = sheet.origin.key[0] ?? '';
      const others = left.map((each) => `“${rows.value(each, key)}”`).join(', ');
      comparison.problems.push(
        problem(
          'workbook-layout',
          where,
          `The row of ${words} is gone, and it is one with ${others}: ${file}, row ${line}, stands for every size.`,
          {
            accepted: 'all sizes of the row, or none removed',
            mend: 'Take the row back, or take the size out of sizes.csv.',
          },
        ),
      );
      continue;
    }
    const changed = sheet.origin.columns.find(
      (column) =>
        column.file === file &&
        !sameValue(rows.value(at, column.column ?? column.id), heldValue(sheet, row, column.id)),
    );
    if (changed !== undefined) {
      comparison.conflicts.push({
        where,
        row: words,
        heading: changed.heading,
        file,
        kind: changed.kind,
        written: heldValue(sheet, row, changed.id) as BookValue,
        inWorkbook: 'removed',
        inBook: rows.value(at, changed.column ?? changed.id),
      });
      if (comparison.prefer !== 'workbook') continue;
    }
    comparison.removed.push({ where, row: words, file, at });
  }
}

/** Rows that cannot be told: their names were changed, or they are there again. */
function tellNames(comparison: Comparison, sheet: LocatedSheet, { renamed, twice }: MatchedRows): void {
  const key = sheet.origin.key[0] ?? '';
  const column = sheet.columns.get(key) ?? 1;
  for (const { origin, row } of renamed) {
    const now = sheet.origin.key.map(
      (id) => cellAt(sheet.saved, row, sheet.columns.get(id) ?? 0)?.value ?? '',
    );
    for (const each of now) comparison.refusedNames.add(keyOf([each]));
    comparison.problems.push(
      problem(
        'workbook-layout',
        comparison.place(sheet, row, column),
        now.every((each) => each === '')
          ? `The name of the row “${rowWords(sheet, origin)}” was cleared, and other cells of it were not.`
          : `The row “${rowWords(sheet, origin)}” is called “${now.join(', ')}” now; names are locked in a workbook, as other sheets look rows up by them.`,
        {
          found: now.join(', '),
          accepted: rowWords(sheet, origin),
          mend: 'Write the old name back. Rename it in the book, or enter what is new in an empty line under the table.',
        },
      ),
    );
  }
  for (const { origin, rows } of twice) {
    const cells = rows.map((row) => cellName(row, column)).join(' and ');
    comparison.problems.push(
      problem(
        'workbook-layout',
        comparison.place(sheet, rows[1] ?? 0, column),
        `The row “${rowWords(sheet, origin)}” is there ${rows.length} times, in ${cells}.`,
        { accepted: 'each row once', mend: 'Remove the copies, or give a copy a name of its own.' },
      ),
    );
  }
}
