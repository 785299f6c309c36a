import { agrees } from '../../engine/calc/agreement.ts';
import type { CellPlace } from '../../engine/calc/program/compileProgram.ts';
import { isFailure, type Result } from '../../engine/calc/values.ts';
import type { CellValue, Plan, PlanColumn } from '../../engine/sheets/plan.ts';

const numbers: ReadonlySet<PlanColumn['kind']> = new Set([
  ...(['money', 'percent', 'number', 'count', 'length', 'cord', 'fine', 'quantity', 'weight'] as const),
  ...(['weight_per_unit', 'force', 'angle', 'minutes', 'hours', 'money_per_unit'] as const),
]);

/** The plan with other figures in some of its input cells: what a program stands in for. */
export function replaceInputs(plan: Plan, places: readonly CellPlace[], figures: ArrayLike<number>): Plan {
  const changed = new Map<string, Map<number, number>>();
  for (const [at, { sheet, column, row }] of places.entries()) {
    const name = `${sheet}.${column}`;
    changed.set(name, (changed.get(name) ?? new Map()).set(row, figures[at] ?? Number.NaN));
  }
  return {
    ...plan,
    sheets: plan.sheets.map((sheet) => ({
      ...sheet,
      columns: sheet.columns.map((column) => {
        const cells = changed.get(`${sheet.id}.${column.id}`);
        if (cells === undefined || column.inputs === undefined) return column;
        const inputs = column.inputs.map((value, row): CellValue => cells.get(row) ?? value);
        return { ...column, inputs };
      }),
    })),
  };
}

/** Every cell of these columns. */
export function cellsOf(plan: Plan, isWanted: (sheet: string, column: PlanColumn) => boolean): CellPlace[] {
  return plan.sheets.flatMap((sheet) =>
    sheet.columns
      .filter((column) => isWanted(sheet.id, column))
      .flatMap((column) =>
        Array.from({ length: sheet.rowCount }, (_, row) => ({ sheet: sheet.id, column: column.id, row })),
      ),
  );
}

/** A figure that a maker may write into the cell: one that a program can vary. */
export function isFigure(_sheet: string, column: PlanColumn): boolean {
  return (column.role === 'input' || column.role === 'override') && numbers.has(column.kind);
}

/** What a program makes of a value. */
export function asFigure(value: Result): number {
  if (typeof value === 'number') return value;
  if (typeof value === 'boolean') return value ? 1 : 0;
  return value === 'well' ? 1 : value === 'look' ? 0 : Number.NaN;
}

/** Whether a program gave the value of a cell. */
export function sameFigure(figure: number, value: Result): boolean {
  const wanted = isFailure(value) ? Number.NaN : asFigure(value);
  return Number.isNaN(wanted) ? Number.isNaN(figure) : agrees(figure, wanted);
}
