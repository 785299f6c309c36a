import { mostCellsTwice, tooLarge } from '../book/limits.ts';
import { type Problem, problem } from '../book/problems/problem.ts';
import type { Plan, PlanColumn, PlanSheet } from '../sheets/plan.ts';
import { evaluate } from './evaluate.ts';
import { isFailure, type Result, type Values } from './values.ts';

/**
 * The same value, but for the last bits of sums that were added in another order: 1e-12 of the value, or
 * 1e-10 where sums nearly cancel.
 */
export function agrees(one: Result, other: Result): boolean {
  if (isFailure(one) && isFailure(other)) return one.error === other.error;
  if (typeof one === 'number' && typeof other === 'number') {
    return Math.abs(one - other) <= Math.max(1e-10, 1e-12 * Math.max(Math.abs(one), Math.abs(other)));
  }
  return one === other;
}

/** A cell (row from 0; -1 is the total) in which two calculations of a plan differ. */
export interface Disagreement {
  readonly sheet: PlanSheet;
  readonly column: PlanColumn;
  readonly row: number;
  readonly one: Result;
  readonly other: Result;
}

/** Every cell in which two calculations of a plan differ. */
export function disagreements(plan: Plan, first: Values, second: Values): Disagreement[] {
  const found: Disagreement[] = [];
  for (const sheet of plan.sheets) {
    for (const column of sheet.columns) {
      const hold = (row: number, one: Result, other: Result): void => {
        if (!agrees(one, other)) found.push({ sheet, column, row, one, other });
      };
      for (let row = 0; row < sheet.rowCount; row += 1) {
        hold(row, first.get(sheet.id, column.id, row), second.get(sheet.id, column.id, row));
      }
      if (column.total !== undefined) {
        hold(-1, first.total(sheet.id, column.id), second.total(sheet.id, column.id));
      }
    }
  }
  return found;
}

/**
 * Calculates a plan again with the reference engine, unless it is so large that a process would run out of memory.
 *
 * @param most cells that are calculated twice
 * @returns its values, and a problem for each formula of the book's own that the two engines read differently; of a plan
 * that is too large the values that were given, and a problem to look at that says so.
 * Exceptions: where only shipped formulas differ, since that is a fault of ours.
 */
export function checkedByReference(
  plan: Plan,
  values: Values,
  most: number = mostCellsTwice,
): { values: Values; problems: Problem[] } {
  const cells = plan.sheets.reduce((sum, { columns, rowCount }) => sum + columns.length * rowCount, 0);
  if (cells > most) return { values, problems: [calculatedOnce(cells, most)] };
  const reference = evaluate(plan);
  const differing = disagreements(plan, reference, values);
  const own = differing.filter(({ column }) => column.at.file.startsWith('sheets/'));
  const [first] = differing;
  if (first !== undefined && own.length === 0) {
    const where = `${first.sheet.id}.${first.column.id}, row ${first.row + 1}`;
    throw new Error(`the two engines differ in ${differing.length} cells, first ${where}`);
  }
  const told = new Map<PlanColumn, Problem>();
  for (const { column, one, other } of own) {
    if (told.has(column)) continue;
    const message = `Spreadsheet programs read this formula differently: ${shown(one)} or ${shown(other)}.`;
    told.set(
      column,
      problem('programs-differ', { ...column.at, column: column.heading }, message, {
        accepted: 'a formula that every program reads alike',
        mend: 'See “Where programs differ” in DEVELOPERS.md: text where a number is meant, or a pattern in COUNTIF or SUMIF, are the usual causes.',
      }),
    );
  }
  return { values: reference, problems: [...told.values()] };
}

function calculatedOnce(cells: number, most: number): Problem {
  const what = `The book has ${cells.toLocaleString('en')} cells to calculate a second time`;
  const mend = 'Nothing: the figures are those of sennit price, and spreadsheet programs work them out anew.';
  return { ...tooLarge({ file: 'book.yaml' }, what, most, mend), severity: 'watch' };
}

function shown(result: Result): string {
  return isFailure(result) ? result.error : result === null ? 'nothing' : JSON.stringify(result);
}
