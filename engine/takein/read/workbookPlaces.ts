import type { Place } from '../../book/problems/problem.ts';
import type { OriginColumn, OriginRow } from '../../origin/origin.ts';
import type { LocatedSheet } from '../compare/locateSheet.ts';
import type { BookRows } from '../edit/bookRows.ts';
import { type BoundRow, targetOf } from '../edit/target.ts';
import { recordFile } from '../fields.ts';

type PlaceOf = (sheet: LocatedSheet, row: number, column: number, heading?: string) => Place;

/** The rows of a table that were found again in the workbook. */
interface FoundRows {
  readonly sheet: LocatedSheet;
  readonly rows: readonly BoundRow[];
  readonly rowsOf: (file: string) => BookRows;
}

/** Where in the workbook the cells of the book's files stand. */
export class WorkbookPlaces {
  readonly tables: FoundRows[] = [];
  /** Cells of a form by the line of `book.yaml` that they are. */
  readonly lines: Map<string, Place> = new Map();
  readonly #place: PlaceOf;
  readonly #known = new Map<string, ReadonlyMap<number, number>>();

  constructor(place: PlaceOf) {
    this.#place = place;
  }

  /**
   * The cell for a column of a row of a file; the name of the row where the problem is of no column, or of one that
   * the sheet does not show. Undefined where the workbook has no such row.
   *
   * @param row number of the row in the file as it was before it was edited
   */
  find(file: string, row: number | undefined, column: string | undefined): Place | undefined {
    if (file === recordFile) return this.lines.get(column ?? '');
    if (row === undefined) return undefined;
    for (const isShown of [true, false]) {
      for (const found of this.tables) {
        const own = found.sheet.origin.columns.find((each) => isOf(each, file, column));
        if (isShown !== (own !== undefined)) continue;
        const shown = own ?? found.sheet.origin.columns.find((each) => each.file === file);
        const line = shown === undefined ? undefined : this.#lines(found, shown, file).get(row);
        if (line !== undefined) return this.cell(found.sheet, line, file, column);
      }
    }
    return undefined;
  }

  /** A cell of a row of the workbook, by the file and column of the book that it goes into. */
  cell(sheet: LocatedSheet, line: number, file: string, column: string | undefined): Place {
    const shown = sheet.origin.columns.find((each) => isOf(each, file, column));
    const key = sheet.origin.columns.find(({ id }) => sheet.origin.key.includes(id) && sheet.columns.has(id));
    const { id, heading } = shown ?? key ?? { id: '', heading: undefined };
    return this.#place(sheet, line, sheet.columns.get(id) ?? 1, heading);
  }

  /** Rows of the workbook by the rows of a file that they show. */
  #lines(found: FoundRows, column: OriginColumn, file: string): ReadonlyMap<number, number> {
    const { sheet, rows, rowsOf } = found;
    const id = `${sheet.origin.id}|${file}`;
    const known = this.#known.get(id);
    if (known !== undefined) return known;
    const lines = new Map<number, number>();
    for (const { origin, row, inBook } of rows) {
      const at = rowInFile(sheet, origin, column, inBook, rowsOf);
      // A row that stands for several sizes is shown by the first of them.
      if (at !== undefined && !lines.has(at)) lines.set(at, row);
    }
    this.#known.set(id, lines);
    return lines;
  }
}

function isOf({ id, file, column }: OriginColumn, wanted: string, name: string | undefined): boolean {
  return file === wanted && (column ?? id) === name;
}

function rowInFile(
  sheet: LocatedSheet,
  origin: OriginRow,
  column: OriginColumn,
  inBook: number | undefined,
  rowsOf: (file: string) => BookRows,
): number | undefined {
  const target = targetOf(sheet, origin, column, inBook, rowsOf);
  const at = target === undefined || target.kind === 'line' ? undefined : target.row;
  const rows = rowsOf(column.file ?? '');
  return at === undefined || rows.isShipped(at) ? undefined : rows.place(at).row;
}
