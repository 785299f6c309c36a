import type { Book, BookValue } from '../../book/book.ts';
import { type Place, type Problem, problem } from '../../book/problems/problem.ts';
import type { FieldSchema } from '../../book/schema.ts';
import type { OriginColumn, OriginRow } from '../../origin/origin.ts';
import type { Target } from '../edit/target.ts';
import type { Fields } from '../fields.ts';
import { WorkbookPlaces } from '../read/workbookPlaces.ts';
import { cellName, heldValue, type LocatedSheet } from './locateSheet.ts';
import { sameValue } from './sameValue.ts';

/** Which side stands where workbook and book were both changed. */
export type Side = 'workbook' | 'book';

/** A cell that was changed in the workbook and goes into the book. */
export interface CellChange {
  readonly where: Place;
  /** What its row is called. */
  readonly row: string;
  readonly heading: string;
  readonly file: string;
  readonly column: string;
  readonly field: FieldSchema;
  readonly target: Target;
  readonly before: BookValue;
  readonly after: BookValue;
  /** The cell was cleared: `after` is what a blank stands for. */
  readonly isBlank: boolean;
  /** The text that was typed, where it was no bare number. */
  readonly typed?: string;
}

/** A whole row that was added in the workbook. */
export interface AddedRow {
  readonly where: Place;
  readonly sheet: LocatedSheet;
  /** Its number in the workbook. */
  readonly line: number;
  /** The names of the row as one text (`keyOf`). */
  readonly key: string;
  readonly row: string;
  readonly file: string;
  readonly cells: readonly {
    readonly field: FieldSchema;
    readonly heading: string;
    readonly value: BookValue;
    readonly typed?: string;
    readonly where: Place;
  }[];
}

export interface RemovedRow {
  readonly where: Place;
  readonly row: string;
  readonly file: string;
  readonly at: number;
}

/** Something that was changed in the workbook, and otherwise in the book. */
export interface Conflict {
  readonly where: Place;
  readonly row: string;
  readonly heading: string;
  readonly file: string;
  readonly kind: FieldSchema['kind'];
  readonly written: BookValue;
  readonly inWorkbook: BookValue | 'removed';
  readonly inBook: BookValue | 'removed';
}

/** What a workbook brings, gathered while its sheets are compared. */
export class Comparison {
  readonly cells: CellChange[] = [];
  readonly added: AddedRow[] = [];
  readonly removed: RemovedRow[] = [];
  readonly conflicts: Conflict[] = [];
  readonly problems: Problem[] = [];
  /** What is left alone, and what is good to know. */
  readonly remarks: Problem[] = [];
  readonly places: WorkbookPlaces = new WorkbookPlaces((...where) => this.place(...where));
  /** Names that rows were given and cannot have: told where they stand, and so not again where they are used. */
  readonly refusedNames: Set<string> = new Set();

  readonly file: string;
  readonly book: Book;
  readonly fields: Fields;
  readonly prefer: Side | undefined;

  /** @param file what the workbook is called */
  constructor(file: string, book: Book, fields: Fields, prefer: Side | undefined) {
    this.file = file;
    this.book = book;
    this.fields = fields;
    this.prefer = prefer;
  }

  place(sheet: LocatedSheet, row?: number, column?: number, heading?: string): Place {
    return {
      file: this.file,
      sheet: sheet.saved.title,
      ...(row === undefined || column === undefined ? {} : { cell: cellName(row, column) }),
      ...(heading === undefined ? {} : { column: heading }),
    };
  }

  leave(where: Place, message: string, found = '', mend = ''): void {
    this.remarks.push(problem('workbook-left', where, message, { severity: 'watch', found, mend }));
  }

  /** A formula in an open cell: the book holds figures. */
  leaveFormula(where: Place, formula: string): void {
    this.leave(where, 'The cell holds a formula; the book takes its value and not the formula.', formula);
  }

  /** A line or row that cannot be told from its copy. */
  twice(where: Place, words: string, rows: readonly number[]): void {
    this.problems.push(
      problem('workbook-layout', where, `“${words}” is there twice, in rows ${rows.join(' and ')}.`, {
        accepted: 'each row once',
        mend: 'Remove the copy.',
      }),
    );
  }

  /**
   * One cell, three ways: as it was written, as the workbook has it, as the book has it. Says what becomes of it.
   */
  decide(written: BookValue, workbook: BookValue, book: BookValue): 'same' | 'take' | 'conflict' {
    if (sameValue(workbook, written) || sameValue(workbook, book)) return 'same';
    return sameValue(book, written) ? 'take' : 'conflict';
  }
}

/** What a row is called, by its keys. */
export function rowWords(sheet: LocatedSheet, row: OriginRow): string {
  const keys = sheet.origin.key.map((id) => heldValue(sheet, row, id)).filter((each) => each !== null);
  return keys.length === 0 ? row.name : keys.join(', ');
}

/** The column's field, as the book reads it now; undefined where these sheets have it no more. */
export function fieldOf(comparison: Comparison, { file, column }: OriginColumn): FieldSchema | undefined {
  return comparison.fields.field(file, column);
}
