import type { NumberKind } from '../book/measures/kinds.ts';
import type { Place } from '../book/problems/problem.ts';
import type { Settings } from '../book/settings.ts';
import type { Expression } from './expression.ts';

/** What a cell may hold. `null` is a blank cell: missing, which is not zero. */
export type CellValue = number | string | boolean | null;

/**
 * What a column is to the maker.
 * - `key`: names the row; fixed in the workbook.
 * - `input`: the maker's figure; unlocked in the workbook.
 * - `override`: blank means "use the computed one" that stands beside it.
 * - `made`: a value that a search of ours found; fixed in the workbook.
 * - `computed`: a formula.
 * - `check`: a formula that is "well" or "look".
 */
export type ColumnRole = 'key' | 'input' | 'override' | 'made' | 'computed' | 'check';

/** A file of the book, such as `materials.csv` or `book.yaml`, and the column or line in it. */
export interface Kept {
  readonly file: string;
  readonly column: string;
}

export interface PlanColumn {
  readonly id: string;
  readonly heading: string;
  /** Unit beside the figure, for forms; tables say it in the heading. */
  readonly unit: string;
  readonly note: string;
  readonly role: ColumnRole;
  readonly kind: NumberKind;
  /** Sheet whose keys the cell must name (drop-down in the workbook). */
  readonly of?: string;
  /** Accepted words, for a choice. */
  readonly choices?: readonly string[];
  /** Accepted bounds, in the column's own unit (per cent for percent). */
  readonly bounds: {
    readonly min?: number;
    readonly above?: number;
    readonly max?: number;
    readonly below?: number;
  };
  /** Formula of every row, for computed and check columns. */
  readonly formula?: Expression;
  /** Formulas row by row, where a list sheet gives each row its own. */
  readonly rowFormulas?: readonly Expression[];
  /** Values of key, input, override and made columns, one a row. */
  readonly inputs?: readonly CellValue[];
  /** Where the book keeps these values; absent where they come from no file of the maker's. */
  readonly kept?: Kept;
  /** Draw an in-cell bar in the workbook. */
  readonly bar: boolean;
  /** Aggregate shown under the column. */
  readonly total?: 'SUM';
  /** For checks: how bad a failure is, what to say (`{column}` is that column's value) and how to mend it. */
  readonly check?: { readonly severity: 'error' | 'watch'; readonly says: string; readonly mend: string };
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
  readonly key: readonly string[];
  /** Several rows may have the same key. */
  readonly repeats?: boolean;
  /** The book table that the rows stand for, or the sheet's own name. */
  readonly base: string;
  /** Rows belong to rows of these sheets' tables, named in `column`; rows of one owner stand together. */
  readonly belongs?: { readonly column: string; readonly to: readonly string[] };
  readonly columns: readonly PlanColumn[];
  readonly rowCount: number;
  /** Where each row came from in the book. */
  readonly places: readonly Place[];
  /** In a complete crossing of two sheets: how many rows each row of the first has. */
  readonly inner?: number;
  /** Key columns whose words stand in the sheet file itself: formulas are simplified by them, row by row. */
  readonly fixed: readonly string[];
}

/** The whole calculation: every cell a value or a formula with symbolic references. */
export interface Plan {
  readonly sheets: readonly PlanSheet[];
  readonly settings: Settings;
}
