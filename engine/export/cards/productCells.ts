import { isFailure, type Values } from '../../calc/values.ts';
import type { CellValue, Plan } from '../../sheets/plan.ts';
import { PlanIndex } from '../../sheets/planIndex.ts';

/** Reads cells by sheet, column and key; what the plan does not hold is null, as a blank cell is. */
export interface ProductCells {
  readonly text: (column: string, key: string) => string;
  /** The number in a column (`sheet.column`) of the row of that key; null where there is none. */
  readonly number: (column: string, key: string) => number | null;
  /** Rows of a child sheet that belong to an owner. */
  readonly children: (sheet: string, owner: string) => readonly ChildCells[];
}

export interface ChildCells {
  readonly text: (column: string) => string;
  /** Zero where there is none. */
  readonly number: (column: string) => number;
}

export function productCells(plan: Plan, values: Values): ProductCells {
  const index = new PlanIndex(plan);
  const cell = (sheetId: string, columnId: string, row: number | undefined): CellValue => {
    // Sheets are data, and a book may be read by other ones: a column that is not there leaves a gap, no fault.
    if (row === undefined || index.sheets.get(sheetId)?.columns.has(columnId) !== true) return null;
    const result = values.get(sheetId, columnId, row);
    return isFailure(result) ? null : result;
  };
  const byKey = (column: string, key: string): CellValue => {
    const [sheetId = '', columnId = ''] = column.split('.');
    return cell(sheetId, columnId, index.sheets.get(sheetId)?.row([key]));
  };
  return {
    text: (column, key) => String(byKey(column, key) ?? ''),
    number: (column, key) => {
      const value = byKey(column, key);
      return typeof value === 'number' ? value : null;
    },
    children: (sheetId, owner) => {
      const [first, last] = index.sheets.get(sheetId)?.owned(owner) ?? [0, -1];
      return Array.from({ length: last - first + 1 }, (_, at): ChildCells => {
        const row = first + at;
        return {
          text: (column) => String(cell(sheetId, column, row) ?? ''),
          number: (column) => {
            const value = cell(sheetId, column, row);
            return typeof value === 'number' ? value : 0;
          },
        };
      });
    },
  };
}
