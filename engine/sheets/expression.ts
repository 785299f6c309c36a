/** The tree a formula is parsed into; `Ref` is how its references are held. */
export type Tree<Ref> =
  | { readonly kind: 'number'; readonly value: number }
  | { readonly kind: 'text'; readonly value: string }
  | { readonly kind: 'truth'; readonly value: boolean }
  | { readonly kind: 'negate'; readonly of: Tree<Ref> }
  | {
      readonly kind: 'binary';
      readonly operator: Operator;
      readonly left: Tree<Ref>;
      readonly right: Tree<Ref>;
    }
  | { readonly kind: 'call'; readonly name: string; readonly args: readonly Tree<Ref>[] }
  | { readonly kind: 'reference'; readonly to: Ref };

export type Operator = '+' | '-' | '*' | '/' | '^' | '&' | '=' | '<>' | '<' | '<=' | '>' | '>=';

/** Binding power of each operator, weakest first, as OpenFormula orders them (ODF 1.3 part 4, 5.5). */
export const operatorPower: Readonly<Record<Operator, number>> = Object.freeze({
  '=': 1,
  '<>': 1,
  '<': 1,
  '<=': 1,
  '>': 1,
  '>=': 1,
  '&': 2,
  '+': 3,
  '-': 3,
  '*': 4,
  '/': 4,
  '^': 5,
});

/** A formula as the author wrote it: names not yet looked up. `at` is the offset in the formula. */
export type ParsedFormula = Tree<NameReference>;

/** `column`, `sheet.column` or `sheet[key, key].column`. */
export interface NameReference {
  readonly sheet?: string;
  readonly keys?: readonly ParsedFormula[];
  readonly column: string;
  readonly at: number;
}

/** A formula whose references are known. */
export type Expression = Tree<Reference>;

/** A symbolic reference. Each back end (engine, workbook, compiled) spells it in its own way. */
export interface Reference {
  /**
   * - `same`: `pack_price`, the cell of this row
   * - `single`: `rates.wage`, a cell of a one-row sheet
   * - `keyed`: `materials[cord].unit_cost`, the row of another sheet that has these keys
   * - `children`: `cuts.cost` inside SUM, the rows of a child sheet that belong to this row
   * - `all`: `cuts.cost` inside SUM on any other sheet, the whole column
   */
  readonly rows: 'same' | 'single' | 'keyed' | 'children' | 'all';
  readonly sheet: string;
  readonly column: string;
  /** For `keyed` only. */
  readonly keys?: readonly Expression[];
}

/** Every reference in a formula, those inside look-up keys too. */
export function* referencesIn(expression: Expression): Generator<Reference> {
  switch (expression.kind) {
    case 'negate':
      yield* referencesIn(expression.of);
      return;
    case 'binary':
      yield* referencesIn(expression.left);
      yield* referencesIn(expression.right);
      return;
    case 'call':
      for (const argument of expression.args) yield* referencesIn(argument);
      return;
    case 'reference':
      yield expression.to;
      for (const key of expression.to.keys ?? []) yield* referencesIn(key);
      return;
    default:
  }
}
