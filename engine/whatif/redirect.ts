import type { Expression, Reference } from '../sheets/expression.ts';
import type { Plan, PlanColumn, PlanSheet } from '../sheets/plan.ts';

/** A column that reads an input as a scenario has it: one formula a row. */
export interface ReadingColumn {
  readonly sheet: string;
  /** The input column, and the one that is read in its place. */
  readonly column: string;
  readonly reading: PlanColumn;
  /** Whether a cell of the input may be blank: the reading is then an empty text, which counts as no number. */
  readonly mayBeBlank: boolean;
}

/** Sheets whose formulas speak of the inputs themselves. */
const untouched: readonly string[] = ['before_after', 'changes', 'what_if', 'scenario_names'];

/**
 * Puts the reading columns beside their inputs and lets every formula read those instead. Where a formula reckons
 * with a blank cell it means 0, but a formula cannot leave a cell blank, only give an empty text: such places say so.
 */
export function redirect(plan: Plan, readings: readonly ReadingColumn[]): Plan {
  const byInput = new Map(readings.map((each) => [`${each.sheet}.${each.column}`, each]));
  return {
    ...plan,
    sheets: plan.sheets.map((sheet) => ({
      ...sheet,
      columns: sheet.columns.flatMap((column) => {
        const own = byInput.get(`${sheet.id}.${column.id}`);
        const kept = untouched.includes(sheet.id) ? column : reread(column, byInput);
        return own === undefined ? [kept] : [kept, own.reading];
      }),
    })),
  };
}

function reread(column: PlanColumn, byInput: ReadonlyMap<string, ReadingColumn>): PlanColumn {
  const rewriter = new Rewriter(byInput);
  return {
    ...column,
    ...(column.formula === undefined ? {} : { formula: rewriter.rewrite(column.formula, false) }),
    ...(column.rowFormulas === undefined
      ? {}
      : { rowFormulas: column.rowFormulas.map((each) => rewriter.rewrite(each, false)) }),
  };
}

/** Functions that ask what a cell holds, or pass over text: to them an empty text is as good as a blank. */
const asking: readonly string[] = [
  'ISNUMBER',
  'ISTEXT',
  'COUNT',
  'COUNTA',
  'COUNTIF',
  'COUNTIFS',
  'SUM',
  'SUMIF',
  'SUMIFS',
  'SUMPRODUCT',
  'MIN',
  'MAX',
  'MINIFS',
  'MAXIFS',
  'AVERAGE',
  'AND',
  'OR',
  'NOT',
  'SWITCH',
  'IFERROR',
  'IFNA',
  'LEN',
  'LOWER',
  'UPPER',
];

class Rewriter {
  readonly #byInput: ReadonlyMap<string, ReadingColumn>;
  /** References that a condition has found to be numbers. */
  readonly #numbers = new Set<string>();

  constructor(byInput: ReadonlyMap<string, ReadingColumn>) {
    this.#byInput = byInput;
  }

  /** @param reckoned whether the value is reckoned with, so that a blank counts as 0 */
  rewrite(expression: Expression, reckoned: boolean): Expression {
    switch (expression.kind) {
      case 'reference':
        return this.#reference(expression.to, reckoned);
      case 'negate':
        return { kind: 'negate', of: this.rewrite(expression.of, true) };
      case 'binary': {
        const { operator, left, right } = expression;
        const words = operator === '&' || left.kind === 'text' || right.kind === 'text';
        return { ...expression, left: this.rewrite(left, !words), right: this.rewrite(right, !words) };
      }
      case 'call':
        return this.#call(expression.name, expression.args, reckoned);
      default:
        return expression;
    }
  }

  #call(name: string, args: readonly Expression[], reckoned: boolean): Expression {
    if (name !== 'IF') {
      const counts = !asking.includes(name);
      return { kind: 'call', name, args: args.map((each) => this.rewrite(each, counts)) };
    }
    const [condition, yes, no] = args;
    const tested =
      condition?.kind === 'call' && condition.name === 'ISNUMBER' ? condition.args[0] : undefined;
    const id = tested?.kind === 'reference' ? JSON.stringify(tested.to) : undefined;
    const inside = id !== undefined && !this.#numbers.has(id);
    const rewritten: Expression[] = [];
    if (condition !== undefined) rewritten.push(this.rewrite(condition, false));
    if (inside) this.#numbers.add(id);
    if (yes !== undefined) rewritten.push(this.rewrite(yes, reckoned));
    if (inside) this.#numbers.delete(id);
    if (no !== undefined) rewritten.push(this.rewrite(no, reckoned));
    return { kind: 'call', name, args: rewritten };
  }

  #reference(to: Reference, reckoned: boolean): Expression {
    const keys = to.keys?.map((key) => this.rewrite(key, false));
    const reading = this.#byInput.get(`${to.sheet}.${to.column}`);
    const moved: Reference = {
      ...to,
      ...(keys === undefined ? {} : { keys }),
      column: reading?.reading.id ?? to.column,
    };
    const read: Expression = { kind: 'reference', to: moved };
    const isRange = to.rows === 'all' || to.rows === 'children';
    if (reading?.mayBeBlank !== true || !reckoned || isRange || this.#numbers.has(JSON.stringify(to)))
      return read;
    return {
      kind: 'call',
      name: 'IF',
      args: [{ kind: 'call', name: 'ISNUMBER', args: [read] }, read, { kind: 'number', value: 0 }],
    };
  }
}

/** Sheet and column of a plan by name, where they are there. */
export function columnIn(
  plan: Plan,
  sheet: string,
  column: string,
): { sheet: PlanSheet; column: PlanColumn } | undefined {
  const found = plan.sheets.find(({ id }) => id === sheet);
  const own = found?.columns.find(({ id }) => id === column);
  return found === undefined || own === undefined ? undefined : { sheet: found, column: own };
}
