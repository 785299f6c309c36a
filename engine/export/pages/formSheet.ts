import type { Worksheet } from 'exceljs';
import type { Values } from '../../calc/values.ts';
import { cellAddress, columnLetters } from '../../sheets/address.ts';
import type { PlanSheet } from '../../sheets/plan.ts';
import { headingRow, type PlanIndex } from '../../sheets/planIndex.ts';
import type { Speller } from '../../sheets/spell.ts';
import { cellContent, cellText } from './cellContent.ts';
import { cellStyle, headingStyle, labelStyle, quietStyle } from './cellStyles.ts';
import { addMarks } from './marks.ts';
import { writeSentence } from './sentence.ts';
import { shownText } from './shownText.ts';
import { addValidation } from './validation.ts';
import { rowHeight, textWidth, widestText, wrappedLines } from './widths.ts';

const noteWidth = 70;
const headings = ['Figure', 'Value', 'Unit', 'Note'] as const;

/** A sheet with one record, written down the page: label, value, unit, note. */
export function writeForm(
  page: Worksheet,
  sheet: PlanSheet,
  index: PlanIndex,
  speller: Speller,
  values: Values,
): void {
  const { settings } = index.plan;
  writeSentence(page, sheet);
  headings.forEach((text, at) => {
    const cell = page.getCell(`${columnLetters(at)}${headingRow}`);
    cell.value = text;
    cell.style = headingStyle(at === 1);
  });
  page.getRow(headingRow).height = rowHeight(1);
  const widths = [10, 10, 10];
  sheet.columns.forEach((column, at) => {
    const address = cellAddress(sheet, at, 0);
    const row = page.getRow(address.row);
    row.getCell(1).value = cellText(column.heading);
    row.getCell(1).style = labelStyle;
    const cell = row.getCell(2);
    const shown = shownText(values.get(sheet.id, column.id, 0), column, settings);
    cell.value = cellContent(sheet, column, 0, speller, values);
    cell.style = {
      ...cellStyle(column, settings),
      alignment: { vertical: 'middle', horizontal: 'right', wrapText: textWidth(shown) > widestText },
    };
    row.getCell(3).value = column.unit === '' ? null : column.unit;
    row.getCell(3).style = quietStyle;
    row.getCell(4).value = column.note === '' ? null : cellText(column.note);
    row.getCell(4).style = quietStyle;
    row.height = rowHeight(
      Math.max(
        wrappedLines(column.note, noteWidth - 3),
        ...[column.heading, shown, column.unit].map((text) => wrappedLines(text, widestText)),
      ),
    );
    addValidation(page, `B${address.row}`, column, index);
    [column.heading, shown, column.unit].forEach((text, place) => {
      widths[place] = Math.max(widths[place] ?? 0, Math.min(textWidth(text), widestText) + 4);
    });
  });
  [...widths, noteWidth].forEach((width, at) => {
    page.getColumn(at + 1).width = Math.ceil(width);
  });
  addMarks(page, sheet, settings);
  page.views = [
    {
      state: 'frozen',
      xSplit: 1,
      ySplit: headingRow,
      showGridLines: false,
      topLeftCell: `B${headingRow + 1}`,
    },
  ];
}
