import { type Place, type Problem, problem } from './problems/problem.ts';

/**
 * How large a book may be. Far beyond any workshop, and far below what would fill a memory or keep a run busy for
 * hours; docs/limits.md lists them.
 */
export const mostRows = 500_000;
/** Rows of a table of products or of what they need, when each is laid out in its sizes. */
export const mostSizedRows = 100_000;
/** Cells of a table, blank ones too. */
export const mostCells = 10_000_000;
export const mostHeadings = 1000;
/** Rows of a sheet; a sheet of a workbook ends at 1,048,576. */
export const mostSheetRows = 1_000_000;
/** Columns of one sheet, and of all sheets together. */
export const mostColumns = 1000;
export const mostColumnsOfAll = 3000;
/** Cells of all sheets that are calculated twice before a workbook is written: the second engine takes 1.7 KB for each. */
export const mostCellsTwice = 1_500_000;

/** A problem for what is larger than it may be. */
export function tooLarge(place: Place, what: string, most: number, mend: string): Problem {
  const figure = most.toLocaleString('en');
  return problem('too-large', place, `${what}, more than ${figure}.`, { accepted: `up to ${figure}`, mend });
}
