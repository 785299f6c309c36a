import type { CellValue } from '../sheets/plan.ts';

/** What a cell shows when it cannot be calculated, such as `#DIV/0!`. */
export interface CellFailure {
  readonly error: string;
}

export type Result = CellValue | CellFailure;

export function isFailure(result: Result): result is CellFailure {
  return typeof result === 'object' && result !== null;
}

/** Every value of a calculated plan. Sheets and columns by name, rows from 0. */
export interface Values {
  /** The value of a cell; blank where there is none. */
  get(sheet: string, column: string, row: number): Result;
  /** A number; zero where the cell is blank or text. Failures are reported as problems before anyone asks. */
  number(sheet: string, column: string, row: number): number;
  /** The number shown under a column that has a total. */
  total(sheet: string, column: string): Result;
}
