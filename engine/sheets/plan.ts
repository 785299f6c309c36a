import type { Place } from '../book/problem.ts';
import type { Expression } from './expression.ts';
import type { NumberKind } from '../book/kinds.ts';

/** What a cell may hold. `null` is a blank cell: missing, which is not zero. */
export type CellValue = number | string | boolean | null;

/**
 * What a column is to the maker.
 * - `key`: names the row; fixed in the workbook.
 * - `input`: the maker's figure; unlocked in the workbook.
 * - `override`: blank means "use the computed one" that stands beside it.
 * - `computed`: a formula.
 * - `check`: a formula that is "well" or "look".
 */
export type ColumnRole = 'key' | 'input' | 'override' | 'computed' | 'check';

export interface PlanColumn {
  readonly id: string;
  readonly heading: string;
  readonly note: string;
  readonly role: ColumnRole;
  readonly kind: NumberKind;
  /** Sheet whose keys the cell must name (drop-down in the workbook). */
  readonly of?: string;
  /** Accepted words, for a choice. */
  readonly choices?: readonly string[];
  /** Formula of every row, for computed and check columns (a list sheet may carry them by row instead). */
  readonly formula?: Expression;
  /** Formula as the author wrote it. */
  readonly formulaText?: string;
  /** Draw an in-cell bar in the workbook. */
  readonly bar?: boolean;
  /** Aggregate shown under the column. */
  readonly total?: 'SUM';
  /** For checks: how bad a failure is and what to say; `{column}` in `says` is the value of that column. */
  readonly severity?: 'error' | 'watch';
  readonly says?: string;
  readonly mend?: string;
  /** Where in the sheet's file the column is defined. */
  readonly at: Place;
}

export interface PlanSheet {
  readonly id: string;
  readonly title: string;
  /** One sentence: the question that the sheet answers. */
  readonly answers: string;
  /** `form`: one record, written down the page; `table`: one record a row. */
  readonly layout: 'form' | 'table';
  readonly keys: readonly string[];
  /** Parent sheets, and the column that names the parent's row; rows of one parent stand together. */
  readonly belongs?: { readonly column: string; readonly to: readonly string[] };
  readonly columns: readonly PlanColumn[];
  readonly rowCount: number;
  /** Values of key, input and override columns: `inputs.get(column)![row]`. */
  readonly inputs: ReadonlyMap<string, readonly CellValue[]>;
  /** Formulas by row where rows differ (list sheets): `rowFormulas.get(column)![row]`. */
  readonly rowFormulas: ReadonlyMap<string, readonly (Expression | undefined)[]>;
  /** Where each row came from in the book. */
  readonly origins: readonly Place[];
  /** Columns whose value is fixed by the sheet itself (in-place lists): formulas fold on them. */
  readonly fixed: readonly string[];
}

export interface Plan {
  readonly sheets: readonly PlanSheet[];
  /** Currency, units, date style: what headings and number formats need. */
  readonly settings: PlanSettings;
}

export interface PlanSettings {
  readonly workshop: string;
  /** ISO 4217 code. */
  readonly currency: string;
  readonly currencyDigits: number;
  readonly lengthUnit: 'in' | 'cm' | 'mm';
  readonly cordUnit: 'ft' | 'yd' | 'm';
}
