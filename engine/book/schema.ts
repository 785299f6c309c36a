import type { NumberKind } from './measures/kinds.ts';

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
  /** The column whose written text stands in for a blank cell: a size without a name is called by its measure. */
  readonly blankFrom?: string;
}

export interface TableSchema {
  /** The CSV file is named for it: `materials` is read from `materials.csv`. */
  readonly table: string;
  readonly fields: readonly FieldSchema[];
  readonly key: readonly string[];
  /** Rows belong to a row of one of these tables, named in `column`. */
  readonly belongs?: { readonly column: string; readonly to: readonly string[] };
  /** Columns that are not read but put together from others of the row, with a space between; blank where one is. */
  readonly joined?: readonly { readonly id: string; readonly from: readonly string[] }[];
  /** A row that names a product with a size run stands for one row a size; see `sizeRuns.ts`. */
  readonly eachSize?: boolean;
  /** No price depends on it, so that a fault in it need not stop one. */
  readonly apart?: boolean;
  /** A book without this table cannot be priced. */
  readonly needed: boolean;
}
