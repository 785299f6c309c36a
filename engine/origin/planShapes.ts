import { columnLetters } from '../sheets/address.ts';
import type { Plan, PlanColumn, PlanSheet } from '../sheets/plan.ts';
import { PlanIndex } from '../sheets/planIndex.ts';
import { Speller, workbookSpelling } from '../sheets/spell.ts';
import { formulaShapes } from './formulaShape.ts';

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
      for (let row = 0; row < sheet.rowCount; row += 1) formulas.add(speller.formula(sheet, column, row));
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
