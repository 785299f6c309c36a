/**
 * The tree a formula is parsed into. Names are still the author's; `resolve` turns them into references.
 */
export type Operator = '+' | '-' | '*' | '/' | '^' | '&' | '=' | '<>' | '<' | '<=' | '>' | '>=';

export type Expression =
  | { readonly kind: 'number'; readonly value: number }
  | { readonly kind: 'text'; readonly value: string }
  | { readonly kind: 'truth'; readonly value: boolean }
  | { readonly kind: 'negate'; readonly of: Expression }
  | {
      readonly kind: 'binary';
      readonly operator: Operator;
      readonly left: Expression;
      readonly right: Expression;
    }
  | { readonly kind: 'call'; readonly name: string; readonly args: readonly Expression[] }
  | { readonly kind: 'reference'; readonly to: Reference };

/** A symbolic reference. Each back end (engine, workbook, compiled) spells it in its own way. */
export type Reference =
  /** `pack_price`: the cell of this row. */
  | { readonly rows: 'same'; readonly sheet: string; readonly column: string }
  /** `rates.wage`: a cell of a one-row sheet. */
  | { readonly rows: 'single'; readonly sheet: string; readonly column: string }
  /** `materials[cord].unit_cost`: the row of another sheet that has this key. */
  | {
      readonly rows: 'keyed';
      readonly sheet: string;
      readonly column: string;
      readonly keys: readonly Expression[];
    }
  /** `cuts.cost` inside SUM: the rows of a child sheet that belong to this row. */
  | { readonly rows: 'children'; readonly sheet: string; readonly column: string }
  /** `cuts.cost` inside SUM, from a sheet that is not its parent: the whole column. */
  | { readonly rows: 'all'; readonly sheet: string; readonly column: string };
