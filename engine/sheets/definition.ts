import type { NumberKind } from '../book/measures/kinds.ts';
import type { Place } from '../book/problems/problem.ts';

/** A form whose record a command makes; without it the sheet stays out. */
export const madeForm = 'made';

/** Where the rows of a sheet come from; see docs/reference/sheet-language.md. */
export type RowSource =
  | { readonly form: string }
  | { readonly table: string }
  | { readonly each: string }
  | { readonly cross: string; readonly with: string; readonly keep?: string | undefined }
  | {
      readonly cross: string;
      readonly with: readonly string[];
      readonly as: string;
      readonly keep?: string | undefined;
    }
  | { readonly list: readonly Readonly<Record<string, string>>[] }
  /** A table that a command makes; `fixed` names columns whose words simplify the formulas of their row. */
  | { readonly made: string; readonly fixed?: readonly string[] | undefined };

/** A column as its sheet file defines it, with the place of the definition. */
export interface ColumnDefinition {
  readonly id: string;
  readonly heading: string;
  readonly unit?: string | undefined;
  readonly kind?: NumberKind | undefined;
  readonly role?: 'input' | 'override' | 'computed' | 'check' | undefined;
  readonly note: string;
  readonly formula?: string | undefined;
  readonly each?: string | undefined;
  readonly from?: string | undefined;
  readonly column?: string | undefined;
  readonly of?: string | undefined;
  readonly choices?: readonly string[] | undefined;
  /** Of a column of formulas: the columns that they may name, on whatever sheet works them out. */
  readonly uses?: readonly string[] | undefined;
  readonly required: boolean;
  readonly blank?: string | undefined;
  readonly blank_metric?: string | undefined;
  readonly measured_by?: string | undefined;
  readonly blank_from?: string | undefined;
  readonly joins?: readonly string[] | undefined;
  /** Left out where that sheet is. */
  readonly only_with?: string | undefined;
  readonly min?: number | undefined;
  readonly above?: number | undefined;
  readonly max?: number | undefined;
  readonly below?: number | undefined;
  readonly bar: boolean;
  readonly total?: 'SUM' | undefined;
  readonly severity: 'error' | 'watch';
  readonly says?: string | undefined;
  readonly mend: string;
  readonly at: Place;
}

/** A sheet as its file defines it. */
export interface SheetDefinition {
  readonly sheet: string;
  readonly title: string;
  readonly answers: string;
  readonly place: number;
  readonly rows: RowSource;
  readonly key: readonly string[];
  readonly belongs?: { readonly column: string; readonly to: readonly string[] };
  readonly each_size?: boolean | undefined;
  /** Left out where that sheet is. */
  readonly only_with?: string | undefined;
  /** Left out where its table has no rows. */
  readonly only_with_rows?: boolean | undefined;
  /** Each row stands for the row of that sheet with the same key, and owns what belongs to it. */
  readonly stands_for?: string | undefined;
  /** Several rows of the table may have the same key; whoever uses them adds them up. */
  readonly repeats?: boolean | undefined;
  /** No price depends on its table: a fault in it stops only the commands that read it. */
  readonly apart?: boolean | undefined;
  readonly columns: readonly ColumnDefinition[];
  readonly at: Place;
}

/** Columns that a sheet file adds to a sheet. */
export interface SheetExtension {
  readonly extends: string;
  readonly columns: readonly ColumnDefinition[];
  readonly at: Place;
}
