import type { CellFormulaValue } from 'exceljs';
import { isFailure, type Result, type Values } from '../../calc/values.ts';
import type { CellValue, PlanColumn, PlanSheet } from '../../sheets/plan.ts';
import type { Speller } from '../../sheets/spell.ts';
import { shorten } from '../shorten.ts';

/** What a record's cell holds: a value as it is, or a formula with the value that was found. */
export type Content = CellValue | CellFormulaValue;

/** A cell of the format ends here. */
const longestText = 32_767;

/** Text as far as a cell holds it. What a book's tables hold is shorter; a sheet file may say anything. */
export function cellText(text: string): string {
  return shorten(text, longestText);
}

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
): Content {
  if (column.inputs !== undefined) return column.inputs[row] ?? null;
  return formulaContent(speller.formula(sheet, column, row), values.get(sheet.id, column.id, row));
}

/** A formula with its cached value. A blank result is left out, as the format has no blank to cache. */
export function formulaContent(formula: string, result: Result): CellFormulaValue {
  if (result === null) return { formula };
  if (typeof result === 'string') return { formula, result: cellText(result) };
  if (!isFailure(result)) return { formula, result };
  return { formula, result: { error: errorWord(result.error) } };
}

type ErrorWord = '#N/A' | '#REF!' | '#NAME?' | '#DIV/0!' | '#NULL!' | '#VALUE!' | '#NUM!';
const errorWords: readonly ErrorWord[] = ['#N/A', '#REF!', '#NAME?', '#DIV/0!', '#NULL!', '#VALUE!', '#NUM!'];

/** The file format knows seven errors; any other of the engine's is a wrong value to it. */
function errorWord(error: string): ErrorWord {
  return errorWords.find((each) => each === error) ?? '#VALUE!';
}
