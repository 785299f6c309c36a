import type { BookValue } from '../book/book.ts';
import { joinNames } from '../book/book.ts';
import type { BookRows } from './bookRows.ts';
import { readSavedCell } from './cellValue.ts';
import { type AddedRow, type Comparison, fieldOf } from './comparison.ts';
import { cellAt, heldValue, type LocatedSheet } from './locateSheet.ts';
import type { MatchedRows } from './matchRows.ts';
import { keyOf, sameValue } from './sameValue.ts';

/** Rows that a maker added: what they hold becomes a row of the book, unless it has the same already. */
export function compareAdded(
  comparison: Comparison,
  sheet: LocatedSheet,
  { added, stray }: MatchedRows,
  rows: BookRows | undefined,
): void {
  const { origin } = sheet;
  for (const row of stray)
    comparison.leave(
      { ...comparison.place(sheet), row },
      `Row ${row} stands under the table and is no whole row of it; it is left alone.`,
      '',
      'Use the empty lines under the table for new rows.',
    );
  for (const row of added) {
    if (origin.table === undefined || rows === undefined) {
      comparison.leave(
        { ...comparison.place(sheet), row },
        `Row ${row} is new; rows of this sheet follow from others, and it is left alone.`,
      );
      continue;
    }
    addRow(comparison, sheet, row, origin.table, rows);
  }
}

function addRow(
  comparison: Comparison,
  sheet: LocatedSheet,
  row: number,
  file: string,
  rows: BookRows,
): void {
  const { origin, saved } = sheet;
  const cells: AddedRow['cells'][number][] = [];
  const values = new Map<string, BookValue>();
  let faulty = false;
  for (const column of origin.columns) {
    const at = sheet.columns.get(column.id);
    const field = fieldOf(comparison, column);
    if (at === undefined || field === undefined || column.file !== file) continue;
    const where = comparison.place(sheet, row, at, column.heading);
    const reading = readSavedCell(cellAt(saved, row, at), field, comparison.book.settings, where);
    if ('problem' in reading) {
      comparison.problems.push(reading.problem);
      faulty = true;
      continue;
    }
    values.set(column.id, reading.value);
    if (reading.isBlank) continue;
    if (reading.formula !== undefined) comparison.leaveFormula(where, reading.formula);
    cells.push({ field, heading: column.heading, value: reading.value, where });
  }
  if (faulty || cells.length === 0) return;
  const joined = comparison.fields.table(file)?.joined ?? [];
  const keys = origin.key.map((id) => {
    const from = joined.find((each) => each.id === id)?.from;
    return from === undefined
      ? (values.get(id) ?? null)
      : joinNames(from.map((each) => values.get(each) ?? null));
  });
  const words = keys.filter((each) => each !== null).join(', ') || `row ${row}`;
  const where = { ...comparison.place(sheet), row };
  const same = origin.repeats ? undefined : rows.find(keyOf(keys));
  const isOrigins =
    same !== undefined &&
    origin.rows.some((each) => keyOf(keys) === keyOf(origin.key.map((id) => heldValue(sheet, each, id))));
  // A name that stands twice is told by the check of the whole book.
  if (same === undefined || isOrigins || rows.isShipped(same)) {
    comparison.added.push({ where, row: words, file, cells });
    return;
  }
  // The book got a row of that name meanwhile: the same one, or another.
  for (const { field, heading, value, where: cell } of cells) {
    const book = rows.value(same, field.id);
    if (sameValue(value, book)) continue;
    comparison.conflicts.push({
      where: cell,
      row: words,
      heading,
      file,
      kind: field.kind,
      written: null,
      inWorkbook: value,
      inBook: book,
    });
    if (comparison.prefer === 'workbook')
      comparison.cells.push({
        where: cell,
        row: words,
        heading,
        file,
        column: field.id,
        field,
        target: { kind: 'row', row: same },
        before: book,
        after: value,
        isBlank: false,
      });
  }
}
