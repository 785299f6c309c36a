import type { OriginRow } from '../../origin/origin.ts';
import { cellAt, heldValue, type LocatedSheet } from './locateSheet.ts';
import { keyOf } from './sameValue.ts';

/** Which row of the workbook is which row of the origin. Row numbers are those of the workbook. */
export interface MatchedRows {
  readonly bound: readonly { readonly origin: OriginRow; readonly row: number }[];
  readonly removed: readonly OriginRow[];
  /** Rows that a maker added. */
  readonly added: readonly number[];
  /** Rows whose name in the workbook is not the one that was written. */
  readonly renamed: readonly { readonly origin: OriginRow; readonly row: number }[];
  /** Rows that are there again, names and all. */
  readonly twice: readonly { readonly origin: OriginRow; readonly rows: readonly number[] }[];
  /** Cells under the table that make no row. */
  readonly stray: readonly number[];
}

/**
 * Finds the rows of a table again: by their hidden name where the key beside it is still theirs; by the key alone
 * where rows were sorted without that column; what has neither is new.
 *
 * @param needed columns without which a row is none
 */
export function matchRows(sheet: LocatedSheet, needed: readonly string[]): MatchedRows {
  const { origin, saved, headingRow, nameColumn } = sheet;
  const keyColumns = origin.key.filter((id) => sheet.columns.has(id));
  const savedKey = (row: number): string =>
    keyOf(keyColumns.map((id) => cellAt(saved, row, sheet.columns.get(id) ?? 0)?.value));
  const originKey = (row: OriginRow): string => keyOf(keyColumns.map((id) => heldValue(sheet, row, id)));
  const blankKey = keyOf(keyColumns.map(() => null));
  const byName = new Map(origin.rows.map((row) => [row.name, row]));
  const nameAt = (row: number): string => String(cellAt(saved, row, nameColumn)?.value ?? '');
  const kept = origin.columns.filter(({ file }) => file !== undefined);
  const isFilled = (row: number): boolean =>
    kept.some(({ id }) => {
      const value = cellAt(saved, row, sheet.columns.get(id) ?? 0)?.value ?? null;
      return value !== null && value !== '';
    });
  const rows = [...saved.rows.keys()].filter((row) => row > headingRow).sort((one, other) => one - other);
  const lastNamed = rows.findLast((row) => nameAt(row).startsWith(`${origin.id}:`)) ?? headingRow;

  const bound = new Map<OriginRow, number>();
  const twice = new Map<OriginRow, number[]>();
  const open: number[] = [];
  for (const row of rows) {
    const name = nameAt(row);
    if (/:(total|spare)$/.test(name) && name.startsWith(`${origin.id}:`)) continue;
    const own = byName.get(name);
    if (own === undefined || originKey(own) !== savedKey(row)) {
      if (isFilled(row) || (own !== undefined && savedKey(row) !== blankKey)) open.push(row);
      continue;
    }
    const first = bound.get(own);
    if (first === undefined) bound.set(own, row);
    else if (origin.repeats) open.push(row);
    else twice.set(own, [...(twice.get(own) ?? [first]), row]);
  }
  // Sorted without the hidden column, names stand beside other rows: then the key says which is which.
  const unbound = new Map<string, OriginRow[]>();
  for (const row of origin.rows)
    if (!bound.has(row)) unbound.set(originKey(row), [...(unbound.get(originKey(row)) ?? []), row]);
  const left: number[] = [];
  for (const row of open) {
    const same = savedKey(row) === blankKey ? undefined : unbound.get(savedKey(row))?.shift();
    if (same === undefined) left.push(row);
    else bound.set(same, row);
  }
  const added: number[] = [];
  const renamed: { origin: OriginRow; row: number }[] = [];
  const stray: number[] = [];
  for (const row of left) {
    const own = byName.get(nameAt(row));
    const isWhole = needed.every((id) => {
      const value = cellAt(saved, row, sheet.columns.get(id) ?? 0)?.value ?? null;
      return value !== null && value !== '';
    });
    if (own !== undefined && !bound.has(own)) {
      renamed.push({ origin: own, row });
      bound.set(own, row);
    } else if (row <= lastNamed || isWhole) added.push(row);
    else stray.push(row);
  }
  const isRenamed = new Set(renamed.map((each) => each.row));
  return {
    bound: [...bound].flatMap(([each, row]) => (isRenamed.has(row) ? [] : [{ origin: each, row }])),
    removed: origin.rows.filter((row) => !bound.has(row)),
    added,
    renamed,
    twice: [...twice].map(([each, all]) => ({ origin: each, rows: all })),
    stray,
  };
}
