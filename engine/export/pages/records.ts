import type { Workbook, Worksheet } from 'exceljs';
import type { Content } from './cellContent.ts';

/**
 * Rows of a sheet that are all made alike, one for each record. They are asked for one by one while the file is
 * written, since the cells of a big book would fill the memory if they were all held at once. What they look like
 * says the sheet's own row where the first of them stands: its cells hold nothing but the style of their column.
 */
export interface Records {
  /** The row of the first, counted from 1. */
  readonly top: number;
  /** How many there are, at least one. */
  readonly count: number;
  /** Heights of the rows that have one of their own, in points, by the place among the records from 0. */
  readonly heights: ReadonlyMap<number, number>;
  /** What stands in the row from its first column on: null is a blank cell, undefined none at all. */
  contents(at: number): readonly (Content | undefined)[];
}

/** A workbook as an object but for its records, which stay where they come from. */
export interface Pages {
  readonly book: Workbook;
  readonly records: ReadonlyMap<Worksheet, Records>;
}

/** The records with one more content in a column of its own, behind all that they have. */
export function withColumn(records: Records, column: number, content: (at: number) => Content): Records {
  return {
    ...records,
    contents: (at) => {
      const contents = [...records.contents(at)];
      contents[column - 1] = content(at);
      return contents;
    },
  };
}
