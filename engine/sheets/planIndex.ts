import { joinKeys, sameKey } from '../book/book.ts';
import type { Expression } from './expression.ts';
import { fold } from './fold.ts';
import type { CellValue, Plan, PlanColumn, PlanSheet } from './plan.ts';

/** Headings of a sheet stand in this row; a table's first record follows. */
export const headingRow = 2;

/** A value that nobody can change in a workbook. */
export function isLocked(column: PlanColumn): boolean {
  return column.role === 'key' || column.role === 'made';
}

/** A sheet with what every back end asks of it: columns by name, rows by key, children by owner. */
export class SheetIndex {
  readonly sheet: PlanSheet;
  /** Position of the sheet in the plan. */
  readonly at: number;
  readonly columns: ReadonlyMap<string, { readonly column: PlanColumn; readonly at: number }>;
  readonly #rows: ReadonlyMap<string, number>;
  readonly #owned: ReadonlyMap<string, readonly [first: number, last: number]>;

  constructor(sheet: PlanSheet, at: number) {
    this.sheet = sheet;
    this.at = at;
    this.columns = new Map(sheet.columns.map((column, index) => [column.id, { column, at: index }]));
    const keys = sheet.key.map((id) => this.columns.get(id)!.column.inputs!);
    const rows = new Map<string, number>();
    for (let row = 0; row < sheet.rowCount && keys.length > 0; row += 1) {
      rows.set(joinKeys(keys.map((values) => keyValue(values[row]))), row);
    }
    this.#rows = rows;
    const owners = sheet.belongs === undefined ? [] : this.columns.get(sheet.belongs.column)!.column.inputs!;
    const owned = new Map<string, [number, number]>();
    owners.forEach((owner, row) => {
      const name = sameKey(String(owner));
      const range = owned.get(name);
      if (range === undefined) owned.set(name, [row, row]);
      else range[1] = row;
    });
    this.#owned = owned;
  }

  /** Row with these keys, from 0; undefined where there is none. */
  row(keys: readonly CellValue[]): number | undefined {
    return this.#rows.get(joinKeys(keys.map(keyValue)));
  }

  /** First and last row that belong to an owner; undefined where it owns none. */
  owned(owner: CellValue): readonly [number, number] | undefined {
    return this.#owned.get(sameKey(String(owner)));
  }
}

function keyValue(value: CellValue | undefined): string | number | null {
  return typeof value === 'boolean' ? String(value) : (value ?? null);
}

/** Text, or a blank, which equals the empty text. */
function isText(value: CellValue): value is string | null {
  return value === null || typeof value === 'string';
}

const noWords: ReadonlyMap<string, CellValue> = new Map();

/** A plan with its sheets indexed. */
export class PlanIndex {
  readonly plan: Plan;
  readonly sheets: ReadonlyMap<string, SheetIndex>;
  readonly #wordsOf = new Map<PlanSheet, readonly ReadonlyMap<string, CellValue>[]>();
  readonly #foldedBy = new Map<Expression, Map<ReadonlyMap<string, CellValue>, Expression>>();

  constructor(plan: Plan) {
    this.plan = plan;
    this.sheets = new Map(plan.sheets.map((sheet, at) => [sheet.id, new SheetIndex(sheet, at)]));
  }

  /** The indexed sheet; a name that is not in the plan is a fault of ours. */
  sheet(id: string): SheetIndex {
    const found = this.sheets.get(id);
    if (found === undefined) throw new Error(`No sheet ${id} in the plan`);
    return found;
  }

  column(sheet: string, id: string): PlanColumn {
    const found = this.sheet(sheet).columns.get(id);
    if (found === undefined) throw new Error(`No column ${sheet}.${id} in the plan`);
    return found.column;
  }

  /** A formula as it is in a row, simplified by the words that are fixed there: once for all rows with the same words. */
  folded(formula: Expression, sheet: PlanSheet, row: number): Expression {
    if (sheet.fixed.length === 0) return formula;
    const words = this.#words(sheet, row);
    let byWords = this.#foldedBy.get(formula);
    if (byWords === undefined) {
      byWords = new Map();
      this.#foldedBy.set(formula, byWords);
    }
    let found = byWords.get(words);
    if (found === undefined) {
      found = fold(formula, words);
      byWords.set(words, found);
    }
    return found;
  }

  /** The fixed words of a row: rows with the same words have one and the same map. */
  #words(sheet: PlanSheet, row: number): ReadonlyMap<string, CellValue> {
    let rows = this.#wordsOf.get(sheet);
    if (rows === undefined) {
      const columns = sheet.fixed.map((id) => this.column(sheet.id, id).inputs ?? []);
      const distinct = new Map<string, ReadonlyMap<string, CellValue>>();
      rows = Array.from({ length: sheet.rowCount }, (_, at) => {
        const words = columns.map((column) => column[at] ?? null);
        const signature = words.join('\n');
        const own =
          distinct.get(signature) ?? new Map(sheet.fixed.map((id, place) => [id, words[place] ?? null]));
        distinct.set(signature, own);
        return own;
      });
      this.#wordsOf.set(sheet, rows);
    }
    return rows[row] ?? noWords;
  }

  /**
   * The value of a formula that is known before anything is calculated, since it leads to an input or key
   * cell. `undefined` where it depends on a computed one.
   *
   * `locked` is true where every cell on the way is a key, so that no edit of the workbook can change it.
   */
  known(
    expression: Expression,
    sheet: PlanSheet,
    row: number,
  ): { value: CellValue; locked: boolean } | undefined {
    switch (expression.kind) {
      case 'text':
      case 'number':
      case 'truth':
        return { value: expression.value, locked: true };
      case 'reference':
        break;
      case 'binary':
        return expression.operator === '&' ? this.#knownText(expression, sheet, row) : undefined;
      case 'call':
        return expression.name === 'IF' ? this.#knownChoice(expression.args, sheet, row) : undefined;
      default:
        return undefined;
    }
    const { to } = expression;
    const target = this.sheet(to.sheet).sheet;
    let targetRow: number | undefined;
    let locked = true;
    if (to.rows === 'same') targetRow = row;
    else if (to.rows === 'single') targetRow = 0;
    else if (to.rows === 'keyed') {
      const keys = to.keys!.map((key) => this.known(key, sheet, row));
      if (keys.some((key) => key === undefined)) return undefined;
      locked = keys.every((key) => key?.locked === true);
      targetRow = this.sheet(to.sheet).row(keys.map((key) => key?.value ?? null));
    }
    if (targetRow === undefined) return undefined;
    const column = this.column(to.sheet, to.column);
    if (column.inputs !== undefined) {
      return { value: column.inputs[targetRow] ?? null, locked: locked && isLocked(column) };
    }
    if (column.formula === undefined) return undefined;
    const through = this.known(this.folded(column.formula, target, targetRow), target, targetRow);
    return through === undefined ? undefined : { value: through.value, locked: locked && through.locked };
  }

  /**
   * Whether a formula is spelled alike in every row but for the numbers of rows: not where rows differ in whether they
   * have children, or in whether their key is one that nobody can change.
   *
   * @param formula as it is once its fixed words are in it
   */
  isAlike(formula: Expression, sheet: PlanSheet): boolean {
    switch (formula.kind) {
      case 'negate':
        return this.isAlike(formula.of, sheet);
      case 'binary':
        return this.isAlike(formula.left, sheet) && this.isAlike(formula.right, sheet);
      case 'call':
        return formula.args.every((argument) => this.isAlike(argument, sheet));
      case 'reference': {
        const { rows, keys = [] } = formula.to;
        return rows === 'keyed' ? keys.length === 1 && this.isOpen(keys[0], sheet) : rows !== 'children';
      }
      default:
        return true;
    }
  }

  /** Whether a key stands in a cell of the row that the maker may fill in: it is looked up anew in every row. */
  isOpen(key: Expression | undefined, sheet: PlanSheet): boolean {
    if (key?.kind !== 'reference' || key.to.rows !== 'same' || key.to.sheet !== sheet.id) return false;
    const column = this.column(sheet.id, key.to.column);
    return column.inputs !== undefined && !isLocked(column);
  }

  /** `for & " " & size`: texts put together. Of a number, each program has its own notion how it reads. */
  #knownText(
    { left, right }: { readonly left: Expression; readonly right: Expression },
    sheet: PlanSheet,
    row: number,
  ): { value: CellValue; locked: boolean } | undefined {
    const parts = [this.known(left, sheet, row), this.known(right, sheet, row)];
    let text = '';
    for (const part of parts) {
      if (part === undefined || (part.value !== null && typeof part.value !== 'string')) return undefined;
      text += part.value ?? '';
    }
    return { value: text, locked: parts.every((part) => part?.locked === true) };
  }

  /** `IF(under_cord="", over_cord, under_cord)`: an override or what stands in for it. */
  #knownChoice(
    [condition, yes, no]: readonly Expression[],
    sheet: PlanSheet,
    row: number,
  ): { value: CellValue; locked: boolean } | undefined {
    if (condition?.kind !== 'binary' || condition.operator !== '=') return undefined;
    const left = this.known(condition.left, sheet, row);
    const right = this.known(condition.right, sheet, row);
    // Texts only: a number in a cell is never equal to the text that reads as it.
    if (left === undefined || right === undefined || !isText(left.value) || !isText(right.value))
      return undefined;
    const branch = sameKey(left.value ?? '') === sameKey(right.value ?? '') ? yes : no;
    const chosen = branch === undefined ? undefined : this.known(branch, sheet, row);
    if (chosen === undefined) return undefined;
    return { value: chosen.value, locked: left.locked && right.locked && chosen.locked };
  }
}
