import type { NumberKind } from '../book/measures/kinds.ts';
import type { Settings } from '../book/settings.ts';
import type { CellValue, ColumnRole } from '../sheets/plan.ts';

/** The form of what is written below; a reader refuses a number that it does not know. */
export const originFormat = 1;

/** What a workbook remembers of the book that it was written from, so that its changes find their way home. */
export interface Origin {
  /** Version of the program that wrote it. */
  readonly version: string;
  /** ISO date. */
  readonly date: string;
  readonly settings: Settings;
  /** Fingerprint of each file of the book, by name. */
  readonly files: Readonly<Record<string, string>>;
  readonly sheets: readonly OriginSheet[];
}

export interface OriginSheet {
  readonly id: string;
  readonly title: string;
  readonly layout: 'form' | 'table';
  readonly key: readonly string[];
  /** Several rows may have the same key. */
  readonly repeats: boolean;
  /** Whether its rows carry their names in a hidden column. */
  readonly named: boolean;
  /** The book's table whose rows a maker may add or remove here: `materials.csv`. */
  readonly table?: string;
  readonly columns: readonly OriginColumn[];
  readonly rows: readonly OriginRow[];
}

export interface OriginColumn {
  readonly id: string;
  readonly heading: string;
  readonly role: ColumnRole;
  readonly kind: NumberKind;
  /** The book's file and column that keep its values, where one does. */
  readonly file?: string;
  readonly column?: string;
  /** Fingerprints of the shapes that its formulas have (`formulaShapes`), that of its total among them. */
  readonly shapes?: readonly string[];
}

/** A row as it was written. */
export interface OriginRow {
  /** What the hidden column calls it: `materials:7`. */
  readonly name: string;
  /** Values of the columns that hold any (`isHeld`), in their order. */
  readonly values: readonly CellValue[];
}

/** Whether a column's values are written down: they name a row, or the book keeps them. */
export function isHeld(column: Pick<OriginColumn, 'role' | 'file'>): boolean {
  return column.file !== undefined || column.role === 'key';
}

/** Whether a maker may change the column's cells in a workbook, and the book can take the change. */
export function isOpen({ role, kind, file }: OriginColumn): boolean {
  return (role === 'input' || role === 'override') && kind !== 'formula' && file !== undefined;
}

/** What the hidden column says in the row of the headings. */
export function sheetName(id: string): string {
  return `sheet:${id}`;
}

/** What it says beside rows that hold no record: totals, and the sentence above the spare lines. */
export function otherRowName(id: string, what: 'total' | 'spare'): string {
  return `${id}:${what}`;
}

/** What it says beside a spare line, counted from 1. */
export function spareName(id: string, line: number): string {
  return `${id}:new ${line}`;
}

/** Empty lines under a table that a maker may add to. */
export const spareLines = 5;
