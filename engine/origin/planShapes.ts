import { columnLetters } from '../sheets/address.ts';
import type { Expression } from '../sheets/expression.ts';
import type { Plan, PlanColumn, PlanSheet } from '../sheets/plan.ts';
import { PlanIndex } from '../sheets/planIndex.ts';
import { Speller, workbookSpelling } from '../sheets/spell.ts';
import { type FormulaReading, formulaReader, formulaShapes } from './formulaShape.ts';

/** The shapes of a column's formulas, each once. */
export type Shapes = (sheet: PlanSheet, column: PlanColumn) => readonly string[];

/** What the formulas of a plan look like in a workbook. */
export function planShapes(plan: Plan): Shapes {
  const index = new PlanIndex(plan);
  const speller = new Speller(index, workbookSpelling);
  const names = new Map(plan.sheets.map((sheet) => [sheet.title, columnNames(sheet)]));
  return (sheet, column) => {
    const own = columnNames(sheet);
    const name = (title: string | undefined, letters: string): string =>
      (title === undefined ? own : names.get(title))?.get(letters) ?? letters;
    const formulas = new Set<string>();
    if (column.formula !== undefined || column.rowFormulas !== undefined) {
      const seen = new Map<Expression, boolean>();
      for (let row = 0; row < sheet.rowCount; row += 1) {
        const formula = column.formula ?? column.rowFormulas?.[row];
        if (formula === undefined) continue;
        const own = index.folded(formula, sheet, row);
        const isAlike = seen.get(own);
        if (isAlike) continue;
        if (isAlike === undefined) seen.set(own, index.isAlike(own, sheet));
        formulas.add(speller.formula(sheet, column, row));
      }
      if (column.total !== undefined) formulas.add(speller.total(sheet, sheet.columns.indexOf(column)));
    }
    return [...new Set([...formulas].map(formulaShapes(name)))].sort();
  };
}

/** Columns of a table by their letters; a form has one for all of its lines. */
export function columnNames({
  id,
  layout,
  columns,
}: Pick<PlanSheet, 'id' | 'layout'> & { readonly columns: readonly { readonly id: string }[] }): ReadonlyMap<
  string,
  string
> {
  if (layout === 'form') return new Map([['B', `${id}.value`]]);
  return new Map(columns.map((column, at) => [columnLetters(at), `${id}.${column.id}`]));
}

/** What every formula of a plan does, and with which rows of the workbook that is written from it. */
export function planFormulas(
  plan: Plan,
): (sheet: PlanSheet, column: PlanColumn, row: number) => FormulaReading | undefined {
  const speller = new Speller(new PlanIndex(plan), workbookSpelling);
  const names = new Map(plan.sheets.map((sheet) => [sheet.title, columnNames(sheet)]));
  const readers = new Map(
    plan.sheets.map((sheet) => [
      sheet,
      formulaReader(
        (title, letters) =>
          (title === undefined ? columnNames(sheet) : names.get(title))?.get(letters) ?? letters,
      ),
    ]),
  );
  return (sheet, column, row) =>
    column.formula === undefined && column.rowFormulas === undefined
      ? undefined
      : readers.get(sheet)?.(speller.formula(sheet, column, row));
}
