import type { Style, Worksheet } from 'exceljs';
import type { Values } from '../../calc/values.ts';
import { columnLetters, totalRow } from '../../sheets/address.ts';
import type { PlanColumn, PlanSheet } from '../../sheets/plan.ts';
import { headingRow, type PlanIndex } from '../../sheets/planIndex.ts';
import type { Speller } from '../../sheets/spell.ts';
import { type Content, cellContent, cellText, formulaContent } from './cellContent.ts';
import { cellStyle, headingStyle, standsRight, totalStyle } from './cellStyles.ts';
import { addComment } from './comment.ts';
import { addMarks, figureChecked } from './marks.ts';
import type { Records } from './records.ts';
import { writeSentence } from './sentence.ts';
import { shownText } from './shownText.ts';
import { addValidation } from './validation.ts';
import { boldFactor, headingWidth, rowHeight, textWidth, widestText, wrappedLines } from './widths.ts';
import { wordWidth } from './wordWidth.ts';

const mostHeadingLines = 3;
/** A heading that fits into two lines of this width takes no third. */
const narrowHeading = 9.5;
const leastWidth = 8;
/** Room beside the text: cell padding, and slack for programs that draw a little wider. */
const padding = 3.2;

/**
 * A sheet with one record a row: sentence, headings, records, totals. The records are given back, but for the style of
 * their cells; undefined where there are none.
 */
export function writeTable(
  page: Worksheet,
  sheet: PlanSheet,
  index: PlanIndex,
  speller: Speller,
  values: Values,
): Records | undefined {
  const { settings } = index.plan;
  writeSentence(page, sheet);
  const hasTotals = sheet.columns.some((column) => column.total !== undefined);
  let headingLines = 1;
  const lines = new Array<number>(sheet.rowCount).fill(1);
  const widestOf = sheet.columns.map((column) => widestValue(sheet, column, index, values));
  const widthOf = (at: number, limit: number): number =>
    columnWidth(sheet, sheet.columns[at] as PlanColumn, Math.min(widestOf[at] ?? 0, limit));
  const limit = wordWidth((most) => sheet.columns.reduce((sum, _, at) => sum + widthOf(at, most), 0));
  sheet.columns.forEach((column, at) => {
    const letters = columnLetters(at);
    const heading = page.getCell(`${letters}${headingRow}`);
    heading.value = cellText(column.heading);
    heading.style = headingStyle(standsRight(column));
    addComment(heading, column.note);
    const wraps = (widestOf[at] ?? 0) > limit;
    const style = wrapping(cellStyle(column, settings), wraps);
    if (sheet.rowCount > 0) page.getCell(`${letters}${headingRow + 1}`).style = style;
    if (wraps) {
      for (let row = 0; row < sheet.rowCount; row += 1) {
        const shown = shownText(values.get(sheet.id, column.id, row), column, settings);
        lines[row] = Math.max(lines[row] ?? 1, wrappedLines(shown, limit));
      }
    }
    if (hasTotals) {
      const cell = page.getCell(`${letters}${totalRow(sheet)}`);
      cell.style = totalStyle(column, settings);
      if (column.total !== undefined)
        cell.value = formulaContent(speller.total(sheet, at), values.total(sheet.id, column.id));
      else if (at === 0) cell.value = 'Total';
    }
    if (sheet.rowCount > 0)
      addValidation(
        page,
        `${letters}${headingRow + 1}:${letters}${headingRow + sheet.rowCount}`,
        column,
        index,
      );
    const width = widthOf(at, limit);
    page.getColumn(at + 1).width = width;
    headingLines = Math.max(headingLines, wrappedLines(column.heading, width - padding, boldFactor));
  });
  page.getRow(headingRow).height = rowHeight(Math.min(headingLines, mostHeadingLines));
  addMarks(page, sheet, settings);
  page.views = [
    {
      state: 'frozen',
      xSplit: leadingKeys(sheet),
      ySplit: headingRow,
      showGridLines: false,
      topLeftCell: `${columnLetters(leadingKeys(sheet))}${headingRow + 1}`,
    },
  ];
  if (sheet.rowCount === 0) return undefined;
  return {
    top: headingRow + 1,
    count: sheet.rowCount,
    // Programs that open a file do not all make room for text that wraps.
    heights: new Map(lines.flatMap((most, row) => (most > 1 ? [[row, rowHeight(most)]] : []))),
    contents: (row) =>
      sheet.columns.map((column): Content => cellContent(sheet, column, row, speller, values)),
  };
}

/** Keys at the left edge: they stay in sight. */
export function leadingKeys(sheet: PlanSheet): number {
  const end = sheet.columns.findIndex((column) => column.role !== 'key');
  return end < 0 ? sheet.columns.length : end;
}

/** Text that is wider than its column is let grow runs over several lines. */
function wrapping(style: Partial<Style>, wraps: boolean): Partial<Style> {
  return wraps ? { ...style, alignment: { ...style.alignment, wrapText: true } } : style;
}

/** The width of a column's longest value as it is shown, or of its total. */
function widestValue(sheet: PlanSheet, column: PlanColumn, index: PlanIndex, values: Values): number {
  const { settings } = index.plan;
  let widest = leastWidth - padding;
  const consider = (shown: string, factor: number): void => {
    widest = Math.max(widest, textWidth(shown) * factor);
  };
  for (let row = 0; row < sheet.rowCount; row += 1) {
    const value = values.get(sheet.id, column.id, row);
    consider(shownText(value, column, settings), column.role === 'key' ? boldFactor : 1);
  }
  if (column.total !== undefined) {
    const total = values.total(sheet.id, column.id);
    consider(shownText(total, column, settings), boldFactor);
  }
  return widest;
}

/** Wide enough for values of this width, and for the heading in a few lines. */
function columnWidth(sheet: PlanSheet, column: PlanColumn, valueWidth: number): number {
  let widest = valueWidth;
  // A changed price may need a digit more, and a failed check puts a mark before its figure.
  if (standsRight(column)) widest += 1;
  if (sheet.columns.some((each) => sheet.columns[figureChecked(sheet, each) ?? -1] === column)) widest += 2;
  const inTwo = headingWidth(column.heading, 2);
  const heading = inTwo <= narrowHeading ? inTwo : headingWidth(column.heading, mostHeadingLines);
  const width = Math.ceil(Math.max(widest, Math.min(heading, widestText)) + padding);
  // exceljs takes this one width for "not set" and leaves it to the reader's program.
  return width === 9 ? 9.1 : width;
}
