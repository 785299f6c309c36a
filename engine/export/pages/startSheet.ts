import type { Style, Worksheet } from 'exceljs';
import type { Values } from '../../calc/values.ts';
import type { Provenance } from '../../origin/provenance.ts';
import { cellAddress, columnLetters } from '../../sheets/address.ts';
import type { PlanSheet } from '../../sheets/plan.ts';
import { headingRow, type PlanIndex } from '../../sheets/planIndex.ts';
import { type Speller, workbookSpelling } from '../../sheets/spell.ts';
import { accent, badGround, good, ink, inputGround, line, overrideGround, titleSize } from '../palette.ts';
import { cellContent, cellText } from './cellContent.ts';
import { font, ground, headingStyle } from './cellStyles.ts';
import { type About, titleOf } from './pageSetup.ts';
import { type FrontPage, legend, licence, pricesFront } from './startText.ts';
import { rowHeight, wrappedLines } from './widths.ts';

const labelWidth = 26;
const textColumn = 104;

const labelCell: Partial<Style> = {
  font: font({ bold: true }),
  alignment: { vertical: 'middle', horizontal: 'left', indent: 1, wrapText: true },
};
const textCell: Partial<Style> = {
  font: font(),
  alignment: { vertical: 'middle', horizontal: 'left', indent: 1, wrapText: true },
};
const linkCell: Partial<Style> = { ...textCell, font: font({ underline: true, color: { argb: accent } }) };

const edgeLine = { style: 'thin', color: { argb: line } } as const;
const edge: Partial<Style['border']> = { top: edgeLine, bottom: edgeLine, left: edgeLine, right: edgeLine };

/** The first page: whose workbook this is, whether its sums agree, how to use it, what to beware of. */
export function writeStart(
  page: Worksheet,
  sheet: PlanSheet,
  index: PlanIndex,
  speller: Speller,
  values: Values,
  about: About & { readonly provenance: Provenance },
): void {
  const { purpose, placesTitle, places, sources, cautions } = about.front ?? pricesFront;
  page.getColumn(1).width = labelWidth;
  page.getColumn(2).width = textColumn;
  page.getCell('A1').value = cellText(sheet.answers);
  page.getCell('A1').style = {
    font: font(),
    alignment: { vertical: 'middle', horizontal: 'left', indent: 1 },
  };
  page.getCell(`A${headingRow}`).value = titleOf(index.plan.settings, about);
  page.getCell(`A${headingRow}`).style = {
    font: font({ bold: true, size: titleSize, color: { argb: accent } }),
    alignment: { vertical: 'middle', horizontal: 'left', indent: 1 },
  };
  page.getRow(headingRow).height = 28;
  sheet.columns.forEach((column, at) => {
    const { row } = cellAddress(sheet, at, 0);
    write(page, row, cellText(column.heading), null);
    const cell = page.getCell(`B${row}`);
    cell.value = cellContent(sheet, column, 0, speller, values);
    cell.style =
      column.role === 'input'
        ? { ...textCell, fill: ground(inputGround), border: edge, protection: { locked: false } }
        : { ...textCell, font: font({ bold: true }) };
    const tell = (test: string, style: Partial<Style>, priority: number): void =>
      page.addConditionalFormatting({
        ref: `B${row}`,
        rules: [
          { type: 'expression', formulae: [`LEFT(B${row},${test.length})="${test}"`], style, priority },
        ],
      });
    tell('all well', { font: { color: { argb: good } } }, 2 * at + 1);
    tell(
      'look',
      {
        font: { bold: true, color: { argb: ink } },
        fill: { ...ground(badGround), bgColor: { argb: badGround } } as Style['fill'],
      },
      2 * at + 2,
    );
  });
  let row = headingRow + 1 + sheet.columns.length;
  const section = (title: string): void => {
    page.getRow(row).height = 9;
    row += 1;
    // Not wrapped: a title runs on into the empty cell beside it.
    const style = headingStyle(false);
    for (const letters of ['A', 'B'])
      page.getCell(`${letters}${row}`).style = { ...style, alignment: { horizontal: 'left', indent: 1 } };
    page.getCell(`A${row}`).value = title;
    row += 1;
  };
  const add = (label: string, text: string | null): void => {
    write(page, row, label, text);
    row += 1;
  };
  section('What this workbook is for');
  for (const [label, text] of purpose) add(label, text);
  section('What the colours mean');
  addLegend(page, row);
  row += 4;
  section(placesTitle);
  for (const place of places) {
    if (addLink(page, row, place, index)) row += 1;
  }
  section('Where the numbers come from');
  for (const [label, text] of sources) add(label, text);
  section('Cautions');
  for (const [label, text] of cautions) add(label, text);
  section('About');
  add('Written on', `${about.date}, by Sennit ${about.version}`);
  const { book, bookFiles, formulas } = about.provenance;
  if (book !== undefined) add('From the book', `fingerprint ${book} of its ${bookFiles} files`);
  add(
    'By the formulas',
    `fingerprint ${formulas}. Workbooks that agree in fingerprints and version were made of the same.`,
  );
  add('Licence', licence);
  page.views = [{ state: 'normal', showGridLines: false }];
}

function write(page: Worksheet, row: number, label: string, text: string | null): void {
  if (label !== '') page.getCell(`A${row}`).value = label;
  page.getCell(`A${row}`).style = labelCell;
  page.getCell(`B${row}`).value = text;
  page.getCell(`B${row}`).style = textCell;
  page.getRow(row).height = rowHeight(wrappedLines(text ?? '', textColumn - 2));
}

function addLegend(page: Worksheet, first: number): void {
  const samples: readonly (readonly [string, string, Partial<Style>])[] = [
    ['Input', legend.input, { fill: ground(inputGround) }],
    ['Set by hand, or blank', legend.override, { fill: ground(overrideGround) }],
    ['Computed', legend.computed, {}],
    ['Check: well', legend.check, { font: font({ color: { argb: good } }) }],
  ];
  samples.forEach(([label, text, style], at) => {
    write(page, first + at, label, text);
    page.getCell(`A${first + at}`).style = {
      ...labelCell,
      font: font(),
      border: edge,
      ...style,
    };
  });
}

/** A link to the column's first cell; false where the book has no such sheet or column. */
function addLink(
  page: Worksheet,
  row: number,
  [label, sheetId, columnId]: FrontPage['places'][number],
  index: PlanIndex,
): boolean {
  const target = index.sheets.get(sheetId);
  const found = target?.columns.get(columnId);
  if (target === undefined || found === undefined) return false;
  const { column, row: line } = cellAddress(target.sheet, found.at, 0);
  const cell = `${columnLetters(column)}${line}`;
  write(page, row, label, null);
  const where =
    target.sheet.layout === 'form' ? `cell ${cell}` : `column ${columnLetters(column)}, from ${cell}`;
  page.getCell(`B${row}`).value = {
    text: `${target.sheet.title}: ${found.column.heading} (${where})`,
    hyperlink: `${workbookSpelling.sheetName(target.sheet)}!${cell}`,
  };
  page.getCell(`B${row}`).style = linkCell;
  return true;
}
