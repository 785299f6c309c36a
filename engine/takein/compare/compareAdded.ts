import type { BookValue } from '../../book/book.ts';
import { joinNames } from '../../book/book.ts';
import { problem } from '../../book/problems/problem.ts';
import type { BookRows } from '../edit/bookRows.ts';
import { readSavedCell } from '../read/cellValue.ts';
import { type AddedRow, type Comparison, fieldOf } from './comparison.ts';
import { cellAt, cellName, heldValue, type LocatedSheet } from './locateSheet.ts';
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
  const joined = comparison.fields.table(file)?.joined ?? [];
  const names = origin.key.flatMap((id) => joined.find((each) => each.id === id)?.from ?? [id]);
  if (names.every((id) => isBlankCell(sheet, row, id))) {
    tellNameless(comparison, sheet, row, file, names);
    return;
  }
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
    const typed = reading.typed === undefined ? {} : { typed: reading.typed };
    cells.push({ field, heading: column.heading, value: reading.value, ...typed, where });
  }
  if (cells.length === 0) return;
  const keys = origin.key.map((id) => {
    const from = joined.find((each) => each.id === id)?.from;
    return from === undefined
      ? (values.get(id) ?? null)
      : joinNames(from.map((each) => values.get(each) ?? null));
  });
  const words = keys.filter((each) => each !== null).join(', ') || `row ${row}`;
  const where = { ...comparison.place(sheet), row };
  const own = { where, sheet, line: row, key: keyOf(keys), row: words, file, cells };
  const twin = origin.repeats ? undefined : lineOf(comparison, sheet, keys);
  if (twin !== undefined) {
    const key = comparison.places.cell(sheet, row, file, names[0]);
    const first = comparison.places.cell(sheet, twin, file, names[0]);
    comparison.problems.push(
      problem('workbook-layout', key, `“${words}” stands in ${first.cell} already.`, {
        found: words,
        accepted: 'each name once, capitals aside',
        mend: 'Give one of the two rows another name, or clear it.',
      }),
    );
    return;
  }
  // What can be read of a faulty row stands for it, so that who names it is not told of as well.
  const same = origin.repeats ? undefined : rows.find(keyOf(keys));
  if (faulty || same === undefined || rows.isShipped(same)) {
    if (same === undefined || !faulty || rows.isShipped(same)) comparison.added.push(own);
    return;
  }
  // The book got a row of that name meanwhile: the same one, or another.
  for (const { field, heading, value, typed, where: cell } of cells) {
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
        ...(typed === undefined ? {} : { typed }),
      });
  }
}

function isBlankCell(sheet: LocatedSheet, row: number, id: string): boolean {
  const value = cellAt(sheet.saved, row, sheet.columns.get(id) ?? 0)?.value ?? null;
  return value === null || (typeof value === 'string' && value.trim() === '');
}

/** The line of the workbook, above this one, in which a row of these names stands. */
function lineOf(comparison: Comparison, sheet: LocatedSheet, keys: readonly BookValue[]): number | undefined {
  const key = keyOf(keys);
  const stays = comparison.places.tables.find((each) => each.sheet === sheet)?.rows ?? [];
  const named = stays.find(
    ({ origin }) => key === keyOf(sheet.origin.key.map((id) => heldValue(sheet, origin, id))),
  );
  if (named !== undefined) return named.row;
  return comparison.added.find((each) => each.sheet === sheet && each.key === key)?.line;
}

/** Something in an empty line that no name stands beside. */
function tellNameless(
  comparison: Comparison,
  sheet: LocatedSheet,
  row: number,
  file: string,
  names: readonly string[],
): void {
  const filled = sheet.origin.columns.find(
    (column) => column.file === file && !isBlankCell(sheet, row, column.id),
  );
  const at = sheet.columns.get(filled?.id ?? '');
  if (filled === undefined || at === undefined) return;
  const key = sheet.origin.columns.find(({ id }) => id === names[0]);
  const nameCell = cellName(row, sheet.columns.get(names[0] ?? '') ?? 1);
  const found = String(cellAt(sheet.saved, row, at)?.value ?? '');
  comparison.problems.push(
    problem(
      'workbook-layout',
      comparison.place(sheet, row, at, filled.heading),
      `“${found}” stands in a line that has no name: ${nameCell} (${key?.heading ?? 'the name'}) is blank.`,
      {
        found,
        accepted: 'an empty line, or a whole row',
        mend: `Clear the cell, or write a name into ${nameCell} and fill in the row.`,
      },
    ),
  );
}
