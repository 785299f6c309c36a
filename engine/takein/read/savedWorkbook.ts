import type { CellValue } from '../../sheets/plan.ts';

/** What a cell of a saved workbook holds, whichever format it was saved in. */
export interface SavedCell {
  /**
   * `date` and `time` are numbers that the program shows as such: their value is an ISO text (`2027-03-01`, `08:30`).
   * `error` has the error's own word as its value.
   */
  readonly kind: 'number' | 'text' | 'truth' | 'date' | 'time' | 'error' | 'blank';
  readonly value: CellValue;
  /** As the file spells it, without a leading equals sign. */
  readonly formula?: string;
}

export interface SavedSheet {
  readonly title: string;
  /** Cells by row and column, both from 1; blank ones are left out, unless they hold a formula. */
  readonly rows: ReadonlyMap<number, ReadonlyMap<number, SavedCell>>;
  /** Ranges of merged cells. */
  readonly merged: readonly CellRange[];
}

export interface CellRange {
  readonly top: number;
  readonly left: number;
  readonly bottom: number;
  readonly right: number;
}

export interface SavedWorkbook {
  readonly format: 'xlsx' | 'ods';
  /** What the document says that it is called, beside its cells; blank where it says nothing. */
  readonly documentTitle: string;
  readonly sheets: readonly SavedSheet[];
}

/** A workbook with more filled cells was not written by us, or was made to fill a memory. */
export const mostCells = 20_000_000;

/** The last row and column that any format of workbooks has (ECMA-376; ODF programs have as many or fewer). */
export const lastRow = 1_048_576;
export const lastColumn = 16_384;
/** Sheets of a workbook: ours has some dozens. */
export const mostSheets = 1000;
/** Ranges of merged cells in a sheet. */
export const mostMerged = 100_000;

/** A file that is a workbook of no kind that is read; `fault` says which. */
export class UnreadableWorkbook extends Error {
  readonly fault: 'not-whole' | 'locked' | 'damaged' | 'too-large' | 'old' | 'binary' | 'empty' | 'other';
  constructor(fault: UnreadableWorkbook['fault']) {
    super(fault);
    this.fault = fault;
  }
}
