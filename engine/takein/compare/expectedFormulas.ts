import type { FormulaReading } from '../../origin/formulaShape.ts';
import type { OriginSheet } from '../../origin/origin.ts';
import { planFormulas } from '../../origin/planShapes.ts';
import type { Plan, PlanSheet } from '../../sheets/plan.ts';
import { headingRow } from '../../sheets/planIndex.ts';

/** Where the rows of a sheet are in a workbook now. */
export interface RowsNow {
  /** Workbook row of each row of the plan, from 0, that is still there. */
  readonly lines: ReadonlyMap<number, number>;
}

/**
 * The formulas that the workbook was written with, known where the book is still the one that it was written from. Rows
 * are compared by what they are, or by where they stand among their like: sorted rows leave a reference in its place.
 */
export class ExpectedFormulas {
  readonly #sheets: ReadonlyMap<string, PlanSheet>;
  readonly #read: ReturnType<typeof planFormulas>;
  readonly #rows: ReadonlyMap<string, Rows>;

  /** @param now where the rows of each sheet are, by its id; a sheet that is not there is not looked at */
  constructor(plan: Plan, sheets: readonly OriginSheet[], now: ReadonlyMap<string, RowsNow>) {
    const alike = plan.sheets.filter((sheet) =>
      sheets.some(
        (each) =>
          each.id === sheet.id &&
          each.columns.map(({ id }) => id).join() === sheet.columns.map(({ id }) => id).join() &&
          (!each.named || each.layout === 'form' || each.rows.length === sheet.rowCount),
      ),
    );
    this.#sheets = new Map(alike.map((sheet) => [sheet.id, sheet]));
    this.#read = planFormulas(plan);
    this.#rows = new Map(
      alike.flatMap((sheet) => {
        const rows = now.get(sheet.id);
        const isNamed = sheets.some(({ id, named }) => id === sheet.id && named);
        return rows === undefined || !(isNamed || isUnmoved(rows, countOf(sheet)))
          ? []
          : [[sheet.id, new Rows(rows, countOf(sheet))] as const];
      }),
    );
  }

  /** Row of the plan that stands in a row of the workbook. */
  rowAt(sheet: string, line: number): number | undefined {
    return this.#rows.get(sheet)?.planRow(line);
  }

  /** What the formula of a cell was; undefined where that is not known. */
  of(id: string, column: string, row: number): FormulaReading | undefined {
    const sheet = this.#sheets.get(id);
    const found = sheet?.columns.find((each) => each.id === column);
    if (sheet === undefined || found === undefined) return undefined;
    return this.#read(sheet, found, sheet.layout === 'form' ? 0 : row);
  }

  /**
   * Whether a formula still uses the rows that it was written with.
   *
   * @param idOf the id of a sheet by its title in the workbook; of the formula's own where there is none
   */
  usesSameRows(
    own: string,
    expected: FormulaReading,
    found: FormulaReading,
    idOf: (title: string | undefined) => string | undefined,
  ): boolean {
    if (expected.rows.length !== found.rows.length) return false;
    return expected.rows.every(({ sheet: title, row }, at) => {
      const there = found.rows[at];
      const id =
        title === undefined ? own : [...this.#sheets.values()].find((each) => each.title === title)?.id;
      const rows = this.#rows.get(id ?? '');
      if (there === undefined || rows === undefined || idOf(there.sheet) !== id) return true;
      return rows.isSame(row - headingRow - 1, there.row);
    });
  }
}

/** Whether a sheet without names of rows has as many of them as it was written with, a total aside. */
function isUnmoved({ lines }: RowsNow, count: number): boolean {
  return lines.size === count || lines.size === count + 1;
}

/** A form has a row for each of its lines. */
function countOf({ layout, columns, rowCount }: PlanSheet): number {
  return layout === 'form' ? columns.length : rowCount;
}

class Rows {
  readonly #count: number;
  readonly #planRows: ReadonlyMap<number, number>;
  /** Place of each workbook row among those that show a row of the plan. */
  readonly #places: ReadonlyMap<number, number>;
  /** How many rows that are still there stand before each row of the plan. */
  readonly #before: readonly number[];
  readonly #first: number;
  readonly #last: number;
  readonly #isMixed: boolean;

  constructor(rows: RowsNow, count: number) {
    const lines = new Map([...rows.lines].filter(([row]) => row >= 0 && row < count));
    const order = [...lines.values()].sort((one, other) => one - other);
    this.#count = count;
    this.#planRows = new Map([...lines].map(([row, line]) => [line, row]));
    this.#places = new Map(order.map((line, at) => [line, at]));
    this.#first = order[0] ?? 0;
    this.#last = order.at(-1) ?? 0;
    const before: number[] = [];
    let kept = 0;
    let isSorted = true;
    for (let row = 0; row < count; row += 1) {
      before.push(kept);
      const line = lines.get(row);
      if (line === undefined) continue;
      if (line !== order[kept]) isSorted = false;
      kept += 1;
    }
    this.#before = before;
    // Where rows were sorted and removed, nobody can tell where a row stood when others went.
    this.#isMixed = !isSorted && kept < count;
  }

  planRow(line: number): number | undefined {
    return this.#planRows.get(line);
  }

  isSame(row: number, line: number): boolean {
    if (this.#places.size === 0 || this.#isMixed) return true;
    // Titles and headings stand above the rows, a total below them.
    if (row < 0) return line < this.#first;
    if (row >= this.#count) return line > this.#last;
    if (this.#planRows.get(line) === row) return true;
    const at = this.#places.get(line);
    const before = this.#before[row]!;
    // A range that began or ended at a row which was removed begins or ends at its neighbour now.
    const isGone = this.#places.size < this.#count && (this.#before[row + 1] ?? this.#places.size) === before;
    return at !== undefined && (at === before || (isGone && at === before - 1));
  }
}
