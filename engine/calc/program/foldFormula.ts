import type { Expression, Reference } from '../../sheets/expression.ts';
import type { CellValue, PlanSheet } from '../../sheets/plan.ts';
import type { PlanIndex } from '../../sheets/planIndex.ts';
import { binary, negate } from '../compiled/operators.ts';
import { failed, failure } from '../compiled/scalar.ts';
import type { Result } from '../values.ts';
import { foldCall } from './foldCall.ts';
import { foldComparison } from './foldComparison.ts';
import type { FoldedArgument, Folding } from './folding.ts';
import { numeric } from './foldNumbers.ts';
import { constant, factsOf, kind, type Leaf, type List, loses, type Node, operation } from './node.ts';

/** What a formula is asked of: the plan, and the cells that other formulas have become. */
export interface Surroundings {
  readonly index: PlanIndex;
  /** A cell as it stands after folding: its value, or its place in the program. */
  cell(sheet: string, column: string, row: number): Leaf;
  /** Every cell of a column. */
  stretch(sheet: string, column: string): readonly Leaf[];
  /** Whether a key of this sheet is among the varied cells, so that its rows have to be looked up in every run. */
  rowsVary(sheet: string): boolean;
}

/** Works out everything in the formula of one cell that does not vary. */
export class FormulaFolder implements Folding {
  readonly #around: Surroundings;
  readonly #sheet: PlanSheet;
  readonly #row: number;

  constructor(around: Surroundings, sheet: PlanSheet, row: number) {
    this.#around = around;
    this.#sheet = sheet;
    this.#row = row;
  }

  fold(expression: Expression): Node {
    switch (expression.kind) {
      case 'number':
      case 'text':
      case 'truth':
        return constant(expression.value);
      case 'negate': {
        const inner = this.fold(expression.of);
        if (inner.tag === 'constant') return constant(negate(() => inner.value)(0));
        return operation('negate', [numeric(inner)], kind.number);
      }
      case 'binary':
        return foldBinary(expression.operator, this.fold(expression.left), this.fold(expression.right));
      case 'call':
        return foldCall(this, expression.name, expression.args);
      case 'reference':
        return this.#reference(expression.to);
    }
  }

  argument(expression: Expression): FoldedArgument {
    if (expression.kind !== 'reference') return { value: this.fold(expression) };
    const { to } = expression;
    if (to.rows === 'all') {
      const cells = this.#around.stretch(to.sheet, to.column);
      return { cells: cells.length === 0 ? [constant(null)] : cells };
    }
    if (to.rows === 'children') {
      const { index } = this.#around;
      const owner = index.column(this.#sheet.id, this.#sheet.key[0]!).inputs?.[this.#row] ?? null;
      const [first, last] = index.sheet(to.sheet).owned(owner) ?? [0, -1];
      if (last < first) return { cells: [constant(null)] };
      return {
        cells: Array.from({ length: last - first + 1 }, (_, at) =>
          this.#around.cell(to.sheet, to.column, first + at),
        ),
      };
    }
    return { cells: [this.#reference(to)] };
  }

  #reference(to: Reference): Node {
    if (to.rows === 'same') return this.#around.cell(to.sheet, to.column, this.#row);
    if (to.rows === 'single') return this.#around.cell(to.sheet, to.column, 0);
    if (to.rows !== 'keyed') throw new Error(`${to.sheet}.${to.column} is a column, not a cell`);
    const keys = to.keys!.map((key) => this.fold(key));
    if (this.#around.rowsVary(to.sheet) || keys.some((key) => key.tag !== 'constant')) {
      return this.#lookUp(to, keys);
    }
    const found = keys.map((key): Result => (key.tag === 'constant' ? key.value : null));
    const row = found.some((each) => each === null || failed(each))
      ? undefined
      : this.#around.index.sheet(to.sheet).row(found as CellValue[]);
    return row === undefined ? constant(failure.missing) : this.#around.cell(to.sheet, to.column, row);
  }

  /** A row that has to be found in every run: by keys that vary, or among rows whose keys do. */
  #lookUp(to: Reference, keys: readonly Node[]): Node {
    const { sheet } = this.#around.index.sheet(to.sheet);
    const targets: List = { tag: 'list', items: this.#around.stretch(to.sheet, to.column) };
    const rowKeys: List = {
      tag: 'list',
      items: Array.from({ length: sheet.rowCount }, (_, row) =>
        sheet.key.map((key) => this.#around.cell(sheet.id, key, row)),
      ).flat(),
    };
    if (targets.items.length === 0) return constant(failure.missing);
    const found = factsOf(targets);
    const made = operation('lookUp', [targets, rowKeys, ...keys], found.kinds | kind.missing);
    return {
      ...made,
      facts: { ...made.facts, texts: found.texts, lost: keys.some((key) => loses(factsOf(key))) },
    };
  }
}

function foldBinary(operator: string, left: Node, right: Node): Node {
  if (left.tag === 'constant' && right.tag === 'constant') {
    return constant(
      binary(
        operator,
        () => left.value,
        () => right.value,
      )(0),
    );
  }
  switch (operator) {
    case '+':
    case '-':
    case '*':
    case '/':
    case '^':
      return operation(operator, [numeric(left), numeric(right)], kind.number);
    case '&':
      return operation('general:&', [left, right], kind.text);
    default:
      return foldComparison(operator, left, right);
  }
}
