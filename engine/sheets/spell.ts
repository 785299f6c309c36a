import { cordFunctions } from '../cord/index.ts';
import { cellAddress, columnLetters, engineRow, totalRow } from './address.ts';
import { type Expression, operatorPower, type Reference } from './expression.ts';
import { sheetFunctions } from './functions.ts';
import type { PlanColumn, PlanSheet } from './plan.ts';
import { headingRow, type PlanIndex } from './planIndex.ts';

/** How a back end writes what the plan says. */
export interface Spelling {
  /** `direct`: the evaluator knows the row. `live`: a key that the maker may change is looked up by INDEX/MATCH. */
  readonly lookups: 'direct' | 'live';
  /** Cord functions by their own name, or written out as plain formulas. */
  readonly cords: 'plugin' | 'plain';
  /** Cells of one-row sheets by their defined name. */
  readonly names: boolean;
  /** Prefix of functions that are newer than the .xlsx format. */
  readonly xlsxPrefix: boolean;
  /** Where a record stands among the records of its sheet. */
  readonly recordRow: (sheet: PlanSheet, row: number) => number;
  /** The sheet's name as it stands before `!`, quoted where needed. */
  readonly sheetName: (sheet: PlanSheet) => string;
}

/** For the calculation engine: direct references and cord functions as plug-ins. */
export const engineSpelling: Spelling = {
  lookups: 'direct',
  cords: 'plugin',
  names: false,
  xlsxPrefix: false,
  recordRow: engineRow,
  sheetName: (sheet) => sheet.id,
};

/** For a workbook: every look-up live, every cord function a plain formula, one-row cells by name. */
export const workbookSpelling: Spelling = {
  lookups: 'live',
  cords: 'plain',
  names: true,
  xlsxPrefix: true,
  recordRow: (_, row) => row,
  // Unquoted, a sheet called Q1 would read as a cell.
  sheetName: (sheet) =>
    /^(?!true$|false$)[A-Za-z]{4,}$/i.test(sheet.title) ? sheet.title : `'${sheet.title}'`,
};

/**
 * The defined name of a cell of a one-row sheet: as the sheet language calls it. The point keeps it from being
 * read as a cell (`vat20`), a word (`true`) or the name of another sheet's cell.
 */
export function definedName(sheet: PlanSheet, column: PlanColumn): string {
  return `${sheet.id}.${column.id}`;
}

type Writer = (row: number) => string;

/** A negated term binds tighter than any operator, and an argument tighter than that. */
const negatePower = 6;
const atomPower = 7;

/** Writes the formulas of a plan in one spelling. A column is prepared once and then written row by row. */
export class Speller {
  readonly #index: PlanIndex;
  readonly #how: Spelling;
  readonly #cords = new Map(cordFunctions.map((each) => [each.name, each]));
  readonly #prepared = new Map<Expression, Writer>();

  constructor(index: PlanIndex, how: Spelling) {
    this.#index = index;
    this.#how = how;
  }

  /** The formula of a computed cell, without its leading `=`. */
  formula(sheet: PlanSheet, column: PlanColumn, row: number): string {
    const expression = column.formula ?? column.rowFormulas?.[row];
    if (expression === undefined) throw new Error(`${sheet.id}.${column.id} has no formula`);
    const own = this.#index.folded(expression, sheet, row);
    let writer = this.#prepared.get(own);
    if (writer === undefined) {
      writer = this.#write(own, sheet, 0);
      this.#prepared.set(own, writer);
    }
    return writer(row);
  }

  /** The formula of the total under a column, without its leading `=`. */
  total(sheet: PlanSheet, columnAt: number): string {
    const letters = columnLetters(columnAt);
    return `SUM(${letters}${headingRow + 1}:${letters}${totalRow(sheet) - 1})`;
  }

  #write(expression: Expression, sheet: PlanSheet, weakest: number): Writer {
    switch (expression.kind) {
      case 'number':
        return constant(String(expression.value));
      case 'text':
        return constant(this.#text(expression.value));
      case 'truth':
        return constant(expression.value ? 'TRUE()' : 'FALSE()');
      case 'negate': {
        const inner = this.#write(expression.of, sheet, negatePower);
        return bracket((row) => `-${inner(row)}`, weakest > 0);
      }
      case 'binary': {
        const own = operatorPower[expression.operator];
        const left = this.#write(expression.left, sheet, own);
        const right = this.#write(expression.right, sheet, own + 1);
        return bracket((row) => `${left(row)}${expression.operator}${right(row)}`, own < weakest);
      }
      case 'call':
        return this.#call(expression.name, expression.args, sheet);
      case 'reference':
        return this.#reference(expression.to, sheet);
    }
  }

  /** The engine cannot read a doubled quotation mark, so it is given the mark by its number. */
  #text(value: string): string {
    if (!value.includes('"') || this.#how.cords === 'plain') return `"${value.replaceAll('"', '""')}"`;
    return `(${value
      .split('"')
      .map((part) => `"${part}"`)
      .join('&CHAR(34)&')})`;
  }

  #call(name: string, given: readonly Expression[], sheet: PlanSheet): Writer {
    const cord = this.#how.cords === 'plain' ? this.#cords.get(name) : undefined;
    if (cord !== undefined) {
      const args = given.map((argument) => this.#write(argument, sheet, atomPower));
      return (row) => `(${cord.native(args.map((argument) => argument(row)))})`;
    }
    const args = given.map((argument) => this.#write(argument, sheet, 0));
    const spelled = (this.#how.xlsxPrefix ? (sheetFunctions.get(name)?.xlsxPrefix ?? '') : '') + name;
    return (row) => `${spelled}(${args.map((argument) => argument(row)).join(',')})`;
  }

  #reference(to: Reference, from: PlanSheet): Writer {
    const target = this.#index.sheet(to.sheet);
    const found = target.columns.get(to.column);
    if (found === undefined) throw new Error(`No column ${to.sheet}.${to.column}`);
    const { sheet } = target;
    const prefix = sheet.id === from.id ? '' : `${this.#how.sheetName(sheet)}!`;
    const letters = columnLetters(cellAddress(sheet, found.at, 0).column);
    const first = headingRow + 1;
    const range = (start: number, end: number): string =>
      `${prefix}$${letters}$${start + first}:$${letters}$${end + first}`;
    switch (to.rows) {
      case 'same':
        if (sheet.layout === 'form') return constant(`${letters}${cellAddress(sheet, found.at, 0).row}`);
        return (row) => `${letters}${this.#how.recordRow(sheet, row) + first}`;
      case 'single':
        if (this.#how.names) return constant(definedName(sheet, found.column));
        return constant(`${prefix}$${letters}$${cellAddress(sheet, found.at, 0).row}`);
      case 'all':
        // A sheet without rows still offers the blank row under its headings, so that sums are 0 and counts 0.
        return constant(range(0, Math.max(sheet.rowCount - 1, 0)));
      case 'children': {
        const owner = this.#index.column(from.id, from.key[0]!).inputs ?? [];
        // An owner without children adds up the second cell of the first row, which every sheet leaves blank.
        const none = `${prefix}$B$1:$B$1`;
        return (row) => {
          const owned = target.owned(owner[row] ?? null);
          return owned === undefined ? none : range(owned[0], owned[1]);
        };
      }
      case 'keyed':
        return this.#keyed(to.keys!, sheet, from, prefix, letters);
    }
  }

  #keyed(
    keys: readonly Expression[],
    sheet: PlanSheet,
    from: PlanSheet,
    prefix: string,
    letters: string,
  ): Writer {
    const target = this.#index.sheet(sheet.id);
    const last = headingRow + Math.max(sheet.rowCount, 1);
    const first = headingRow + 1;
    const single = keys.length === 1 ? keys[0] : undefined;
    const keyLetters = columnLetters(target.columns.get(sheet.key[0]!)!.at);
    const match = single === undefined ? undefined : this.#write(single, from, 0);
    const fix = this.#how.lookups === 'direct' && isAligned(keys, from) ? '' : '$';
    const looked = (row: number): string => {
      if (match === undefined) throw new Error(`A row of ${sheet.id} is picked by names that may change`);
      return `INDEX(${prefix}$${letters}$${first}:$${letters}$${last},MATCH(${match(row)},${prefix}$${keyLetters}$${first}:$${keyLetters}$${last},0))`;
    };
    if (this.#how.lookups === 'live' && this.#index.isOpen(single, from)) return looked;
    return (row) => {
      const known = keys.map((key) => this.#index.known(key, from, row));
      const sure = known.every((key) => key !== undefined && (key.locked || this.#how.lookups === 'direct'));
      if (sure) {
        const targetRow = target.row(known.map((key) => key?.value ?? null));
        if (targetRow === undefined) return 'NA()';
        return `${prefix}${fix}${letters}${fix}${this.#how.recordRow(sheet, targetRow) + first}`;
      }
      return looked(row);
    };
  }
}

/** The key is the row's own first name: the target rows run along with the rows that ask. */
function isAligned(keys: readonly Expression[], from: PlanSheet): boolean {
  const [first, ...rest] = keys;
  const own = first?.kind === 'reference' && first.to.rows === 'same' && first.to.column === from.key[0];
  return own && rest.every((key) => key.kind === 'text');
}

function constant(text: string): Writer {
  return () => text;
}

function bracket(writer: Writer, needed: boolean): Writer {
  return needed ? (row) => `(${writer(row)})` : writer;
}
