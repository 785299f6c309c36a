import type { BookValue } from '../../book/book.ts';
import { isOpen, type OriginColumn, type OriginRow } from '../../origin/origin.ts';
import type { BookRows } from '../edit/bookRows.ts';
import { type BoundRow, type Target, targetOf } from '../edit/target.ts';
import { readSavedCell } from '../read/cellValue.ts';
import type { SavedCell } from '../read/savedWorkbook.ts';
import { type Comparison, fieldOf, rowWords } from './comparison.ts';
import { cellAt, heldValue, type LocatedSheet } from './locateSheet.ts';
import { sameValue } from './sameValue.ts';

/** Compares every open cell of a row of a table, or of a line of a form. */
export function compareRow(
  comparison: Comparison,
  sheet: LocatedSheet,
  { origin, row, inBook }: BoundRow,
  rowsOf: (file: string) => BookRows,
): void {
  for (const column of sheet.origin.columns) {
    const at = sheet.columns.get(column.id);
    if (at === undefined || column.file === undefined) continue;
    const field = fieldOf(comparison, column);
    if (!isOpen(column) || field === undefined) {
      watchLocked(comparison, sheet, origin, row, column);
      continue;
    }
    const where = comparison.place(sheet, row, at, column.heading);
    const written = heldValue(sheet, origin, column.id) as BookValue;
    const cell = cellAt(sheet.saved, row, at);
    // A blank that was one is none to ask about, even where a row of its own would need the figure.
    if (written === null && isEmpty(cell)) continue;
    const reading = readSavedCell(cell, field, comparison.book.settings, where, written);
    if ('problem' in reading) {
      // A cell that was not touched reads as it was written; this one was.
      comparison.problems.push(reading.problem);
      continue;
    }
    const { value, isBlank, typed } = reading;
    const target = targetOf(sheet, origin, column, inBook, rowsOf);
    const book = bookValue(column, target, rowsOf);
    // Of a row that the book no longer has, the cells are told together.
    if (target === undefined) continue;
    const words = { where, row: rowWords(sheet, origin), heading: column.heading, file: column.file };
    const decision = comparison.decide(written, value, book);
    if (decision === 'same') continue;
    if (reading.formula !== undefined) comparison.leaveFormula(where, reading.formula);
    if (decision === 'conflict') {
      comparison.conflicts.push({ ...words, kind: column.kind, written, inWorkbook: value, inBook: book });
      if (comparison.prefer !== 'workbook') continue;
    }
    comparison.cells.push({
      ...words,
      column: column.column ?? column.id,
      field,
      target,
      before: book,
      after: value,
      isBlank,
      ...(typed === undefined ? {} : { typed }),
    });
  }
}

function isEmpty(cell: SavedCell | undefined): boolean {
  return cell === undefined || (cell.formula === undefined && (cell.value === null || cell.value === ''));
}

function bookValue(
  column: OriginColumn,
  target: Target | undefined,
  rowsOf: (file: string) => BookRows,
): BookValue {
  if (target === undefined || target.kind === 'line' || target.row === undefined) return null;
  return rowsOf(column.file ?? '').value(target.row, column.column ?? column.id);
}

/** A locked cell that was written over: names of rows are looked at elsewhere. */
function watchLocked(
  comparison: Comparison,
  sheet: LocatedSheet,
  origin: OriginRow,
  row: number,
  column: OriginColumn,
): void {
  if (sheet.origin.key.includes(column.id)) return;
  const at = sheet.columns.get(column.id) ?? 0;
  const value = cellAt(sheet.saved, row, at)?.value ?? null;
  if (sameValue(value, heldValue(sheet, origin, column.id))) return;
  comparison.leave(
    comparison.place(sheet, row, at, column.heading),
    `${column.heading} of ${rowWords(sheet, origin)} is locked in a workbook; its change is left alone.`,
    String(value ?? ''),
    `Change it in ${column.file}, and write the workbook anew.`,
  );
}
