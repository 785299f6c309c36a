import { type Expression, type Reference, referencesIn } from '../../sheets/expression.ts';
import type { CellValue, Plan, PlanColumn, PlanSheet } from '../../sheets/plan.ts';
import { PlanIndex } from '../../sheets/planIndex.ts';
import type { Result, Values } from '../values.ts';
import { type Argument, compiledFunctions } from './functions.ts';
import { binary, type Cell, negate } from './operators.ts';
import { failed, failure } from './scalar.ts';

/**
 * Calculates a plan by the compiled path: every column once, in the order of need, over plain arrays. The same
 * formulas through a second back end; the reference engine (`evaluate`) must say the same, and tests and the
 * writing of every workbook hold it to that.
 */
export function calculate(plan: Plan): Values {
  const program = new Program(new PlanIndex(plan));
  program.run();
  return program;
}

/**
 * One column as a function of one figure of its own row, everything else as it was calculated: what a fit
 * turns round, through the very formula of the sheet.
 *
 * @param varied the column of the same sheet that takes the figure
 * @returns from row and figure to the value; a failure counts as a value
 */
export function asFunctionOf(
  plan: Plan,
  values: Values,
  sheet: string,
  column: string,
  varied: string,
): (row: number, figure: number) => Result {
  const program = new Program(new PlanIndex(plan));
  return program.asFunctionOf(values, sheet, column, varied);
}

class Program implements Values {
  readonly #index: PlanIndex;
  readonly #columns = new Map<string, Result[]>();
  readonly #targetRows = new Map<string, readonly (number | undefined)[]>();

  constructor(index: PlanIndex) {
    this.#index = index;
  }

  run(): void {
    const open: { sheet: PlanSheet; column: PlanColumn }[] = [];
    for (const sheet of this.#index.plan.sheets) {
      for (const column of sheet.columns) {
        if (column.inputs === undefined) open.push({ sheet, column });
        else this.#columns.set(`${sheet.id}.${column.id}`, column.inputs as Result[]);
      }
    }
    const done = new Set(this.#columns.keys());
    const waiting = new Map(open.map((each) => [`${each.sheet.id}.${each.column.id}`, each]));
    const visit = (id: string): void => {
      const node = waiting.get(id);
      if (node === undefined || done.has(id)) return;
      done.add(id);
      for (const formula of formulasOf(node.column)) {
        for (const to of referencesIn(formula)) visit(`${to.sheet}.${to.column}`);
      }
      this.#columns.set(id, this.#column(node.sheet, node.column));
    };
    for (const id of waiting.keys()) visit(id);
  }

  asFunctionOf(
    values: Values,
    sheetId: string,
    columnId: string,
    varied: string,
  ): (row: number, figure: number) => Result {
    const { sheet } = this.#index.sheet(sheetId);
    const { formula } = this.#index.column(sheetId, columnId);
    if (formula === undefined) throw new Error(`${sheetId}.${columnId} has no formula`);
    for (const to of referencesIn(formula)) {
      const { rowCount } = this.#index.sheet(to.sheet).sheet;
      const known = Array.from({ length: rowCount }, (_, row) => values.get(to.sheet, to.column, row));
      this.#columns.set(`${to.sheet}.${to.column}`, known);
    }
    const figures = this.#columns.get(`${sheetId}.${varied}`) ?? [];
    const cell = this.#cell(formula, sheet);
    return (row, figure) => {
      const before = figures[row] ?? null;
      figures[row] = figure;
      const result = cell(row);
      figures[row] = before;
      return result;
    };
  }

  get(sheet: string, column: string, row: number): Result {
    const values = this.#columns.get(`${sheet}.${column}`);
    if (values === undefined) throw new Error(`No column ${sheet}.${column} in the plan`);
    return values[row] ?? null;
  }

  number(sheet: string, column: string, row: number): number {
    const result = this.get(sheet, column, row);
    return typeof result === 'number' ? result : 0;
  }

  total(sheet: string, column: string): Result {
    return (
      compiledFunctions.get('SUM')?.([{ value: () => null, cells: () => this.#values(sheet, column) }])(0) ??
      null
    );
  }

  #values(sheet: string, column: string): readonly Result[] {
    return this.#columns.get(`${sheet}.${column}`) ?? [];
  }

  #column(sheet: PlanSheet, column: PlanColumn): Result[] {
    const values: Result[] = new Array(sheet.rowCount);
    const { formula } = column;
    if (formula !== undefined) {
      const cell = this.#cell(formula, sheet);
      for (let row = 0; row < sheet.rowCount; row += 1) values[row] = cell(row);
    } else {
      column.rowFormulas?.forEach((each, row) => {
        values[row] = this.#cell(each, sheet)(row);
      });
    }
    return values;
  }

  #cell(expression: Expression, sheet: PlanSheet): Cell {
    switch (expression.kind) {
      case 'number':
      case 'text':
      case 'truth': {
        const { value } = expression;
        return () => value;
      }
      case 'negate':
        return negate(this.#cell(expression.of, sheet));
      case 'binary':
        return binary(
          expression.operator,
          this.#cell(expression.left, sheet),
          this.#cell(expression.right, sheet),
        );
      case 'call': {
        const compiled = compiledFunctions.get(expression.name);
        if (compiled === undefined) throw new Error(`${expression.name} has no compiled form`);
        return compiled(expression.args.map((argument) => this.#argument(argument, sheet)));
      }
      case 'reference':
        return this.#reference(expression.to, sheet);
    }
  }

  #argument(expression: Expression, sheet: PlanSheet): Argument {
    if (expression.kind !== 'reference') return { value: this.#cell(expression, sheet) };
    const { to } = expression;
    if (to.rows === 'all') {
      const cells = this.#stretch(to);
      return { value: () => failure.value, cells: () => cells };
    }
    if (to.rows === 'children') {
      const all = this.#stretch(to);
      const child = this.#index.sheet(to.sheet);
      const owners = this.#index.column(sheet.id, sheet.key[0]!).inputs ?? [];
      const stretches = owners.map((owner: CellValue) => {
        const owned = child.owned(owner);
        return owned === undefined ? blankStretch : all.slice(owned[0], owned[1] + 1);
      });
      return { value: () => failure.value, cells: (row) => stretches[row] ?? blankStretch };
    }
    const value = this.#reference(to, sheet);
    return { value, cells: (row) => [value(row)] };
  }

  /** A whole column; one blank cell where the sheet has no rows, as in a workbook. */
  #stretch(to: Reference): readonly Result[] {
    const values = this.#values(to.sheet, to.column);
    return values.length === 0 ? blankStretch : values;
  }

  #reference(to: Reference, sheet: PlanSheet): Cell {
    const values = this.#values(to.sheet, to.column);
    if (to.rows === 'same') return (row) => values[row] ?? null;
    if (to.rows === 'single') return () => values[0] ?? null;
    if (to.rows !== 'keyed') throw new Error(`${to.sheet}.${to.column} is a column, not a cell`);
    const rows = this.#rowsOf(to, sheet);
    return (row) => {
      const target = rows[row];
      return target === undefined ? failure.missing : (values[target] ?? null);
    };
  }

  /** The row of another sheet that each row asks for; found once for all columns that ask by the same keys. */
  #rowsOf(to: Reference, sheet: PlanSheet): readonly (number | undefined)[] {
    const keys = to.keys!;
    const id = `${sheet.id}>${to.sheet}:${JSON.stringify(keys)}`;
    const known = this.#targetRows.get(id);
    if (known !== undefined) return known;
    const cells = keys.map((key) => this.#cell(key, sheet));
    const target = this.#index.sheet(to.sheet);
    const rows = Array.from({ length: sheet.rowCount }, (_, row) => {
      const found = cells.map((cell) => cell(row));
      return found.some((each) => each === null || failed(each))
        ? undefined
        : target.row(found as CellValue[]);
    });
    this.#targetRows.set(id, rows);
    return rows;
  }
}

const blankStretch: readonly Result[] = [null];

function formulasOf(column: PlanColumn): readonly Expression[] {
  return column.formula === undefined ? (column.rowFormulas ?? []) : [column.formula];
}
