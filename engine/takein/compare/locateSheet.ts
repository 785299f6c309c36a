import {
  isHeld,
  type OriginColumn,
  type OriginRow,
  type OriginSheet,
  sheetName,
} from '../../origin/origin.ts';
import { columnLetters } from '../../sheets/address.ts';
import type { CellValue } from '../../sheets/plan.ts';
import type { SavedCell, SavedSheet, SavedWorkbook } from '../read/savedWorkbook.ts';
import { keptText } from './sameValue.ts';

/** A sheet of the origin as it was found in the workbook. */
export interface LocatedSheet {
  readonly origin: OriginSheet;
  readonly saved: SavedSheet;
  readonly headingRow: number;
  /** The hidden column with the names of rows. */
  readonly nameColumn: number;
  /** Where each column of the origin stands now, by its id; a form has its values in one column. */
  readonly columns: ReadonlyMap<string, number>;
  /** Columns that could not be found. */
  readonly missing: readonly OriginColumn[];
  /** Headings of columns that are not ours. */
  readonly strange: readonly { readonly column: number; readonly heading: string }[];
}

/** `G7`. */
export function cellName(row: number, column: number): string {
  return `${columnLetters(column - 1)}${row}`;
}

export function cellAt(sheet: SavedSheet, row: number, column: number): SavedCell | undefined {
  return sheet.rows.get(row)?.get(column);
}

function textAt(sheet: SavedSheet, row: number, column: number): string {
  const value = cellAt(sheet, row, column)?.value;
  return typeof value === 'string' ? keptText(value) : '';
}

/** A value of an origin row by the id of its column. */
export function heldValue({ origin }: LocatedSheet, row: OriginRow, id: string): CellValue {
  return row.values[origin.columns.filter(isHeld).findIndex((column) => column.id === id)] ?? null;
}

/** Where the hidden column says what sheet this is: for every sheet that was ours, under whatever title. */
function markers(workbook: SavedWorkbook): Map<string, { saved: SavedSheet; row: number; column: number }[]> {
  const found = new Map<string, { saved: SavedSheet; row: number; column: number }[]>();
  for (const saved of workbook.sheets) {
    for (const [row, cells] of saved.rows) {
      for (const [column, { value }] of cells) {
        if (typeof value !== 'string' || !value.startsWith('sheet:')) continue;
        found.set(value, [...(found.get(value) ?? []), { saved, row, column }]);
      }
    }
  }
  return found;
}

/** Sheets of the origin that have inputs, where they are now, and their copies; those not there, and those there twice. */
export function locateSheets(
  workbook: SavedWorkbook,
  sheets: readonly OriginSheet[],
): { located: LocatedSheet[]; copies: LocatedSheet[]; gone: OriginSheet[]; twice: OriginSheet[] } {
  const marks = markers(workbook);
  const located: LocatedSheet[] = [];
  const copies: LocatedSheet[] = [];
  const gone: OriginSheet[] = [];
  const twice: OriginSheet[] = [];
  for (const origin of sheets) {
    if (!origin.named) continue;
    const all = marks.get(sheetName(origin.id)) ?? [];
    // A copy that a maker keeps beside the sheet has another title.
    const own = all.length > 1 ? all.filter(({ saved }) => saved.title === origin.title) : all;
    const [found] = own;
    if (all.length === 0) gone.push(origin);
    else if (found === undefined || own.length > 1) twice.push(origin);
    else {
      located.push(locate(origin, found.saved, found.row, found.column));
      for (const { saved, row, column } of all)
        if (saved !== found.saved) copies.push(locate(origin, saved, row, column));
    }
  }
  return { located, copies, gone, twice };
}

function locate(
  origin: OriginSheet,
  saved: SavedSheet,
  headingRow: number,
  nameColumn: number,
): LocatedSheet {
  const headings = [...(saved.rows.get(headingRow)?.keys() ?? [])]
    .filter((column) => column !== nameColumn)
    .sort((one, other) => one - other)
    .map((column) => ({ column, heading: textAt(saved, headingRow, column) }))
    .filter(({ heading }) => heading !== '');
  if (origin.layout === 'form') {
    const column = headings.find(({ heading }) => heading === 'Value')?.column;
    const columns = new Map(column === undefined ? [] : origin.columns.map(({ id }) => [id, column]));
    return {
      origin,
      saved,
      headingRow,
      nameColumn,
      columns,
      missing: column === undefined ? origin.columns.slice(0, 1) : [],
      strange: [],
    };
  }
  const columns = byHeading(origin, headings);
  const taken = new Set(columns.values());
  addRenamed(origin, columns, taken, headings);
  return {
    origin,
    saved,
    headingRow,
    nameColumn,
    columns,
    missing: origin.columns.filter(({ id }) => !columns.has(id)),
    strange: headings.filter(({ column }) => !taken.has(column)),
  };
}

/** Columns by their headings; of headings that stand twice in the origin, the first is the first. */
function byHeading(
  origin: OriginSheet,
  headings: readonly { readonly column: number; readonly heading: string }[],
): Map<string, number> {
  const columns = new Map<string, number>();
  const wanted = new Map<string, string[]>();
  for (const { id, heading } of origin.columns)
    wanted.set(keptText(heading), [...(wanted.get(keptText(heading)) ?? []), id]);
  for (const [text, ids] of wanted) {
    const there = headings.filter(({ heading }) => heading === text);
    if (there.length !== ids.length) continue;
    ids.forEach((id, at) => {
      columns.set(id, there[at]!.column);
    });
  }
  return columns;
}

/** A heading that was written anew is known by its neighbours on both sides. */
function addRenamed(
  origin: OriginSheet,
  columns: Map<string, number>,
  taken: Set<number>,
  headings: readonly { readonly column: number; readonly heading: string }[],
): void {
  origin.columns.forEach(({ id }, at) => {
    if (columns.has(id)) return;
    const before = at === 0 ? 0 : columns.get(origin.columns[at - 1]?.id ?? '');
    const after = columns.get(origin.columns[at + 1]?.id ?? '');
    const isLast = at === origin.columns.length - 1;
    if (before === undefined || taken.has(before + 1)) return;
    const fits = isLast ? headings.some(({ column }) => column === before + 1) : after === before + 2;
    if (!fits) return;
    columns.set(id, before + 1);
    taken.add(before + 1);
  });
}
