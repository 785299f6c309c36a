import { formulaReader } from '../../origin/formulaShape.ts';
import type { Origin, OriginColumn, OriginSheet } from '../../origin/origin.ts';
import { columnNames } from '../../origin/planShapes.ts';
import { columnLetters } from '../../sheets/address.ts';
import type { Plan } from '../../sheets/plan.ts';
import type { SavedSheet, SavedWorkbook } from '../read/savedWorkbook.ts';
import type { Comparison } from './comparison.ts';
import { ExpectedFormulas } from './expectedFormulas.ts';
import { cellName, type LocatedSheet } from './locateSheet.ts';

/** A sheet of ours as it is in the workbook, named rows or not. */
interface FormulaSheet {
  readonly origin: OriginSheet;
  readonly saved: SavedSheet;
  readonly headingRow: number;
  readonly columns: ReadonlyMap<string, number>;
  readonly nameColumn: number | undefined;
}

const headingRow = 2;

/**
 * Names every column whose formulas were changed or written over. The book has its formulas, and keeps them.
 *
 * @param plan what the workbook was written from, where the book is still that one
 */
export function watchFormulas(
  comparison: Comparison,
  workbook: SavedWorkbook,
  origin: Origin,
  located: readonly LocatedSheet[],
  plan: Plan | undefined,
): void {
  const sheets = origin.sheets.flatMap((sheet) => formulaSheet(sheet, workbook, located));
  const names = new Map(sheets.map((sheet) => [sheet.saved.title, lettersOf(sheet)]));
  const ids = new Map(sheets.map((sheet) => [sheet.saved.title, sheet.origin.id]));
  const now = new Map(sheets.map((sheet) => [sheet.origin.id, { lines: linesOf(comparison, sheet) }]));
  const expected = plan === undefined ? undefined : new ExpectedFormulas(plan, origin.sheets, now);
  let lost = 0;
  for (const sheet of sheets) {
    const own = lettersOf(sheet);
    const { id } = sheet.origin;
    const name = (title: string | undefined, letters: string): string =>
      (title === undefined ? own : names.get(title))?.get(letters) ?? letters;
    const idOf = (title: string | undefined): string | undefined =>
      title === undefined ? id : ids.get(title);
    const read = formulaReader(name);
    /** Whether a formula is what it was: in its kind, and where that is known in the rows that it uses. */
    const isKept = ({ shapes = [], id: of }: OriginColumn, row: number, formula: string): boolean => {
      const found = read(formula);
      if (!shapes.includes(found.shape)) return false;
      const at = expected?.rowAt(id, row);
      const before = at === undefined ? undefined : expected?.of(id, of, at);
      if (expected === undefined || before === undefined || !shapes.includes(before.shape)) return true;
      return before.shape === found.shape && expected.usesSameRows(id, before, found, idOf);
    };
    sheet.origin.columns.forEach((column, at) => {
      if (column.shapes === undefined) return;
      const changed: string[] = [];
      const over: string[] = [];
      for (const { row, column: across } of cellsOf(sheet, column, at)) {
        const cell = sheet.saved.rows.get(row)?.get(across);
        const isNamed = sheet.nameColumn !== undefined && isRecord(sheet, row);
        if (cell?.formula === undefined) {
          if (cell !== undefined || isNamed) over.push(cellName(row, across));
        } else if (comparison.removed.length > 0 && cell.formula.includes('#REF!')) lost += 1;
        else if (!isKept(column, row, cell.formula)) changed.push(cellName(row, across));
      }
      tell(comparison, sheet, column, changed, 'changed');
      tell(comparison, sheet, column, over, 'written over');
    });
  }
  if (lost > 0)
    comparison.leave(
      { file: comparison.file },
      `${lost === 1 ? 'A formula shows' : `${lost} formulas show`} #REF!, as rows that they used were removed; the next workbook is written without them.`,
    );
}

/** Where the rows of a sheet are now, by their numbers as they were written. */
function linesOf({ places }: Comparison, sheet: FormulaSheet): ReadonlyMap<number, number> {
  const { origin, saved, nameColumn } = sheet;
  if (origin.layout === 'form') {
    const lines = origin.columns.flatMap((column, at): [number, number][] => {
      const [cell] = cellsOf(sheet, column, at);
      return cell === undefined ? [] : [[at, cell.row]];
    });
    return new Map(lines);
  }
  if (nameColumn !== undefined) {
    const rows = places.tables.find((each) => each.sheet.origin === origin)?.rows ?? [];
    const numbers = new Map(origin.rows.map((row, at) => [row, at]));
    return new Map(rows.map((each) => [numbers.get(each.origin) ?? -1, each.row]));
  }
  // Rows without names are those under the headings, up to the first that is called nothing.
  const key = sheet.columns.get(origin.key[0] ?? '') ?? 1;
  const lines = new Map<number, number>();
  for (let row = headingRow + 1; (saved.rows.get(row)?.get(key)?.value ?? null) !== null; row += 1)
    lines.set(row - headingRow - 1, row);
  return lines;
}

function formulaSheet(
  origin: OriginSheet,
  { sheets }: SavedWorkbook,
  located: readonly LocatedSheet[],
): FormulaSheet[] {
  const known = located.find((each) => each.origin === origin);
  if (known !== undefined) return [known];
  const saved = sheets.find(({ title }) => title === origin.title);
  if (saved === undefined || origin.named) return [];
  const columns = new Map(origin.columns.map(({ id }, at) => [id, origin.layout === 'form' ? 2 : at + 1]));
  return [{ origin, saved, headingRow, columns, nameColumn: undefined }];
}

/** What the letters of a sheet stand for now. */
function lettersOf({ origin, columns }: FormulaSheet): ReadonlyMap<string, string> {
  if (origin.layout === 'form') return columnNames(origin);
  return new Map([...columns].map(([id, at]) => [columnLetters(at - 1), `${origin.id}.${id}`]));
}

function isRecord({ origin, saved, nameColumn }: FormulaSheet, row: number): boolean {
  const name = String(saved.rows.get(row)?.get(nameColumn ?? 0)?.value ?? '');
  return name.startsWith(`${origin.id}:`) && !/:(total|spare|new \d+)$/.test(name);
}

/** The cells in which a column has, or had, its formulas. */
function cellsOf(sheet: FormulaSheet, column: OriginColumn, at: number): { row: number; column: number }[] {
  const across = sheet.columns.get(column.id);
  if (across === undefined) return [];
  const { origin, saved, nameColumn } = sheet;
  if (origin.layout === 'form') {
    if (nameColumn === undefined) return [{ row: headingRow + 1 + at, column: across }];
    const line = [...saved.rows].find(
      ([, cells]) => cells.get(nameColumn)?.value === `${origin.id}:${column.id}`,
    );
    return line === undefined ? [] : [{ row: line[0], column: across }];
  }
  return [...saved.rows.keys()]
    .filter((row) => row > sheet.headingRow)
    .map((row) => ({ row, column: across }));
}

function tell(
  comparison: Comparison,
  sheet: FormulaSheet,
  { heading }: OriginColumn,
  cells: readonly string[],
  what: string,
): void {
  const [first] = cells;
  if (first === undefined) return;
  const more =
    cells.length > 1
      ? ` (${cells.length} cells: ${cells.slice(0, 8).join(', ')}${cells.length > 8 ? ', …' : ''})`
      : '';
  comparison.leave(
    { file: comparison.file, sheet: sheet.saved.title, cell: first, column: heading },
    `The formula of ${heading} was ${what}${more}; the book keeps its own.`,
    '',
    'A column of your own can say it: see the sheet files in DEVELOPERS.md.',
  );
}
