import { isOpen } from '../../origin/origin.ts';
import { readSavedCell } from '../read/cellValue.ts';
import { type Comparison, fieldOf } from './comparison.ts';
import { cellAt, type LocatedSheet } from './locateSheet.ts';

/** Compares the lines of a form, each known by its hidden name, with the book's figures. */
export function compareForm(comparison: Comparison, sheet: LocatedSheet): void {
  const { origin, saved, headingRow, nameColumn } = sheet;
  const lines = new Map<string, number[]>();
  for (const [row, cells] of saved.rows) {
    const name = cells.get(nameColumn)?.value;
    if (row > headingRow && typeof name === 'string') lines.set(name, [...(lines.get(name) ?? []), row]);
  }
  for (const column of origin.columns) {
    const name = `${origin.id}:${column.id}`;
    const field = fieldOf(comparison, column);
    const at = sheet.columns.get(column.id);
    if (!isOpen(column) || field === undefined || at === undefined || column.file === undefined) continue;
    const [row, again] = lines.get(name) ?? [];
    if (row === undefined) {
      comparison.leave(
        comparison.place(sheet),
        `The line “${column.heading}” is not there any more; the book keeps its figure.`,
      );
      continue;
    }
    const where = comparison.place(sheet, row, at, column.heading);
    if (again !== undefined) {
      comparison.twice(where, column.heading, [row, again]);
      continue;
    }
    comparison.places.lines.set(column.column ?? column.id, where);
    const written = origin.rows.find((each) => each.name === name)?.values[0] ?? null;
    const base = typeof written === 'boolean' ? null : written;
    const reading = readSavedCell(cellAt(saved, row, at), field, comparison.book.settings, where, base);
    if ('problem' in reading) {
      comparison.problems.push(reading.problem);
      continue;
    }
    const before = comparison.book.record.get(column.column ?? column.id) ?? null;
    const decision = comparison.decide(base, reading.value, before);
    if (decision === 'same') continue;
    if (reading.formula !== undefined) comparison.leaveFormula(where, reading.formula);
    const words = { where, row: '', heading: column.heading, file: column.file };
    if (decision === 'conflict') {
      comparison.conflicts.push({
        ...words,
        kind: column.kind,
        written: base,
        inWorkbook: reading.value,
        inBook: before,
      });
      if (comparison.prefer !== 'workbook') continue;
    }
    comparison.cells.push({
      ...words,
      column: column.column ?? column.id,
      field,
      target: { kind: 'line' },
      before,
      after: reading.value,
      isBlank: reading.isBlank,
      ...(reading.typed === undefined ? {} : { typed: reading.typed }),
    });
  }
}
