import type { Expression, ParsedFormula } from './expression.ts';

/** One formula that stands as text in a table, by the key of its row. */
export interface WrittenFormula {
  readonly key: string;
  readonly tree: ParsedFormula;
}

/** A column of such formulas: all its rows by key, and the formulas of those that have a sound one. */
export interface WrittenColumn {
  readonly keys: readonly string[];
  readonly formulas: readonly WrittenFormula[];
}

/** The formulas that stand in tables, by `sheet.column`. */
export type WrittenFormulas = ReadonlyMap<string, WrittenColumn>;

/**
 * One formula out of many: the one whose key this row names. A chain of IF, since every program reads that;
 * a key without a formula gives 0, and a key that nobody knows the failure #NUM!.
 */
export function choose(
  by: Expression,
  keys: readonly string[],
  formulas: ReadonlyMap<string, Expression>,
): Expression {
  const unknown: Expression = {
    kind: 'call',
    name: 'SQRT',
    args: [{ kind: 'negate', of: { kind: 'number', value: 1 } }],
  };
  return keys.reduceRight<Expression>(
    (otherwise, key) => ({
      kind: 'call',
      name: 'IF',
      args: [
        { kind: 'binary', operator: '=', left: by, right: { kind: 'text', value: key } },
        formulas.get(key) ?? { kind: 'number', value: 0 },
        otherwise,
      ],
    }),
    unknown,
  );
}
