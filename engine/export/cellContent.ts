import type { CellFormulaValue, CellValue as FileValue } from 'exceljs';
import { isFailure, type Result, type Values } from '../calc/values.ts';
import type { PlanColumn, PlanSheet } from '../sheets/plan.ts';
import type { Speller } from '../sheets/spell.ts';

/**
 * What is written into a record's cell: the maker's value as it is (text always as text), or the native
 * formula with the value that the engine found.
 */
export function cellContent(
  sheet: PlanSheet,
  column: PlanColumn,
  row: number,
  speller: Speller,
  values: Values,
): FileValue {
  if (column.inputs !== undefined) return column.inputs[row] ?? null;
  return formulaContent(speller.formula(sheet, column, row), values.get(sheet.id, column.id, row));
}

/** A formula with its cached value. A blank result is left out, as the format has no blank to cache. */
export function formulaContent(formula: string, result: Result): CellFormulaValue {
  if (result === null) return { formula };
  if (!isFailure(result)) return { formula, result };
  return { formula, result: { error: errorWord(result.error) } };
}

type ErrorWord = '#N/A' | '#REF!' | '#NAME?' | '#DIV/0!' | '#NULL!' | '#VALUE!' | '#NUM!';
const errorWords: readonly ErrorWord[] = ['#N/A', '#REF!', '#NAME?', '#DIV/0!', '#NULL!', '#VALUE!', '#NUM!'];

/** The file format knows seven errors; any other of the engine's is a wrong value to it. */
function errorWord(error: string): ErrorWord {
  return errorWords.find((each) => each === error) ?? '#VALUE!';
}
