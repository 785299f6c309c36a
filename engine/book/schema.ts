import type { NumberKind } from './kinds.ts';

/** What one column of a table (or one setting of the record) accepts. Taken from the sheets. */
export interface FieldSchema {
  readonly id: string;
  readonly kind: NumberKind;
  readonly required: boolean;
  /** Text that a blank cell stands for, and its metric counterpart where that differs. */
  readonly blank?: string;
  readonly blankMetric?: string;
  readonly min?: number;
  readonly above?: number;
  readonly max?: number;
  readonly below?: number;
  readonly choices?: readonly string[];
  /** The table whose keys the cell must name. */
  readonly of?: string;
  /** For a quantity: the column that names the material it is a quantity of. */
  readonly measuredBy?: string;
}

export interface TableSchema {
  /** The CSV file is named for it: `materials` is read from `materials.csv`. */
  readonly table: string;
  readonly fields: readonly FieldSchema[];
  readonly key: readonly string[];
  /** Rows belong to a row of one of these tables, named in `column`. */
  readonly belongs?: { readonly column: string; readonly to: readonly string[] };
  /** A book without this table cannot be priced. */
  readonly needed: boolean;
}
