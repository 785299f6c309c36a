import type { Cell, Row, Worksheet } from 'exceljs';
import type { Content } from '../cellContent.ts';
import { cssColour } from '../palette.ts';
import type { Records } from '../records.ts';
import { attributeText, element, openTag } from '../xml.ts';
import { annotation, cellValue, contentValue } from './cell.ts';
import { type Block, type BlockMaps, blockOf, conditionalLooks } from './conditions.ts';
import { openFormulas, rangeAddress } from './openFormula.ts';
import { noMaps, type StyleMap, type StyleStore } from './styleStore.ts';
import type { BlockRule, Validations } from './validations.ts';

/**
 * A column's width counts digits of the workbook's type, 5.56 points each. This is a little more: other programs
 * measure the type that stands in for it where it is missing, and here the length is given.
 */
const pointsOfDigit = 6;
const usualWidth = 9;
const usualHeight = 15;

/** What the sheets of a workbook share. */
export interface SharedStyles {
  readonly styles: StyleStore;
  readonly validations: Validations;
  /** Name of the page style of each sheet. */
  readonly masterPage: string;
  /** Day that notes are from, ISO. */
  readonly day: string;
}

/** What cells of a column have to know beside their own style. */
interface ColumnRules {
  readonly mapsAt: (row: number) => readonly StyleMap[];
  readonly rules: readonly BlockRule[];
}

/** A piece of the file: text, or text that is made while the file is written. */
export type Piece = string | Iterable<string>;

/** A sheet as a table of OpenDocument. All its styles are known when this is done, records or not. */
export function table(
  page: Worksheet,
  { styles, validations, masterPage, day }: SharedStyles,
  records: Records | undefined,
): Piece[] {
  const looks = conditionalLooks(page, styles);
  const rules = validations.add(page);
  const width = columnCount(page, records);
  const columns = Array.from({ length: width }, (_, at): ColumnRules => {
    const within = ({ block }: { readonly block: Block }): boolean =>
      block.left <= at + 1 && at + 1 <= block.right;
    return { mapsAt: mapsOf(looks.maps.filter(within)), rules: rules.filter(within) };
  });
  const usual = page.properties.defaultRowHeight ?? usualHeight;
  const rows: Piece[] = [];
  const lastRecord = records === undefined ? 0 : records.top + records.count - 1;
  for (let number = 1; number <= Math.max(page.rowCount, lastRecord); number += 1) {
    const row = page.findRow(number);
    if (records?.top === number && row !== undefined) {
      rows.push(recordRows(records, row, columns, styles, usual));
      number = lastRecord;
      continue;
    }
    const cells = row === undefined ? '' : rowCells(row, columns, styles, day);
    rows.push(rowElement(styles.row(row?.height ?? usual), cells));
  }
  const { printArea, printTitlesRow, printTitlesColumn } = page.pageSetup;
  const { tabColor } = page.properties;
  const colour = tabColor?.argb === undefined ? undefined : cssColour(tabColor.argb).toLowerCase();
  const guarded = (page as GuardedPage).sheetProtection !== null;
  const whole = element(
    'table:table',
    {
      'table:name': page.name,
      'table:style-name': styles.sheet(masterPage, page.state === 'visible', colour),
      'table:protected': guarded ? true : undefined,
      'table:print-ranges':
        printArea === undefined ? undefined : rangeAddress(page.name, printArea.replaceAll('$', '')),
    },
    guarded ? protection(page as GuardedPage) : '',
    ...withHeader(
      'table:table-header-columns',
      columnElements(page, width, styles),
      columnSpan(printTitlesColumn),
    ),
    rowsMark,
    looks.xml,
  );
  const [before = '', after = ''] = whole.split(rowsMark);
  return [before, ...withHeader('table:table-header-rows', rows, rowSpan(printTitlesRow)), after];
}

/** Where the rows go: a character that no text of the file can hold. */
const rowsMark = '\uFFFF';

function rowElement(style: string, cells: string): string {
  return element('table:table-row', { 'table:style-name': style }, cells || element('table:table-cell'));
}

/** The rows of records. Their styles are found before; their cells are made when they are asked for. */
function recordRows(
  records: Records,
  styled: Row,
  columns: readonly ColumnRules[],
  styles: StyleStore,
  usual: number,
): Iterable<string> {
  const heights = new Map([...records.heights.values(), usual].map((height) => [height, styles.row(height)]));
  const cells = columns.map(({ mapsAt, rules }, at): RecordCell => {
    const cell = styled.findCell(at + 1);
    const maps = mapsAt(records.top);
    const hasStyle = cell !== undefined && Object.keys(cell.style).length > 0;
    const rule = rules.find(({ block }) => block.top <= records.top && records.top <= block.bottom);
    const start = openTag('table:table-cell', {
      'table:style-name': hasStyle || maps.length > 0 ? styles.cell(cell?.style ?? {}, maps) : undefined,
      'table:content-validation-name': rule?.name,
    });
    return { start, format: cell?.numFmt, spell: openFormulas() };
  });
  return (function* () {
    for (let at = 0; at < records.count; at += 1) {
      const style = heights.get(records.heights.get(at) ?? usual) ?? '';
      yield rowElement(style, recordCells(records.contents(at), cells));
    }
  })();
}

/** What the cells of a column have in common in all records. */
interface RecordCell {
  /** Its tag up to what each record has of its own. */
  readonly start: string;
  readonly format: string | undefined;
  readonly spell: (formula: string) => string;
}

function recordCells(contents: readonly (Content | undefined)[], columns: readonly RecordCell[]): string {
  let written = '';
  let blanks = 0;
  for (let at = 0; at < contents.length; at += 1) {
    const content = contents[at];
    const column = columns[at];
    if (content === undefined || column === undefined) {
      blanks += 1;
      continue;
    }
    const { attributes, text } = contentValue(content, column.format, column.spell);
    const start = `${blankCells(blanks)}${column.start}${attributeText(attributes)}`;
    written += text === '' ? `${start}/>` : `${start}>${text}</table:table-cell>`;
    blanks = 0;
  }
  return written;
}

/** The rules of a column's cells, row by row: one list for all rows that have the same. */
function mapsOf(looks: readonly BlockMaps[]): ColumnRules['mapsAt'] {
  if (looks.length === 0) return () => noMaps;
  const lists = new Map<string, readonly StyleMap[]>();
  return (row) => {
    const own = looks.filter(({ block }) => block.top <= row && row <= block.bottom);
    if (own.length === 0) return noMaps;
    const key = own.map((each) => looks.indexOf(each)).join();
    const list = lists.get(key) ?? own.flatMap(({ maps }) => maps);
    lists.set(key, list);
    return list;
  };
}

interface GuardedPage extends Worksheet {
  readonly sheetProtection: {
    readonly selectLockedCells?: boolean;
    readonly selectUnlockedCells?: boolean;
  } | null;
}

/** Which cells may be selected where a sheet is locked: an extension that LibreOffice reads. */
function protection({ sheetProtection }: GuardedPage): string {
  return element('loext:table-protection', {
    'loext:select-protected-cells': sheetProtection?.selectLockedCells !== false,
    'loext:select-unprotected-cells': sheetProtection?.selectUnlockedCells !== false,
  });
}

/** exceljs counts only rows in which something stands, and in the row of the records there is only style. */
function columnCount(page: Worksheet, records: Records | undefined): number {
  const styled = records === undefined ? 0 : (page.findRow(records.top)?.cellCount ?? 0);
  return Math.max(page.columnCount, styled, 1);
}

function columnElements(page: Worksheet, width: number, styles: StyleStore): string[] {
  return Array.from({ length: width }, (_, at) => {
    const { width, hidden } = page.getColumn(at + 1);
    return element('table:table-column', {
      'table:style-name': styles.column((width ?? usualWidth) * pointsOfDigit),
      'table:visibility': hidden ? 'collapse' : undefined,
      'table:default-cell-style-name': 'Default',
    });
  });
}

/** The rows or columns that are repeated on every printed page stand in an element of their own. */
function withHeader<T>(
  tag: string,
  elements: readonly T[],
  span: readonly [number, number] | undefined,
): (T | string)[] {
  if (span === undefined) return [...elements];
  const [first, last] = span;
  return [
    ...elements.slice(0, first - 1),
    `<${tag}>`,
    ...elements.slice(first - 1, last),
    `</${tag}>`,
    ...elements.slice(last),
  ];
}

function rowSpan(rows: string | undefined): readonly [number, number] | undefined {
  const [first, last] = rows?.split(':').map(Number) ?? [];
  return first === undefined || last === undefined ? undefined : [first, last];
}

/** `A:B` as numbers of columns. */
function columnSpan(columns: string | undefined): readonly [number, number] | undefined {
  if (columns === undefined) return undefined;
  const { left, right } = blockOf(columns.replaceAll(/[A-Z]+/g, (letters) => `${letters}1`));
  return [left, right];
}

/** Cells up to the last that holds or shows something; blank ones without a look are counted, not listed. */
function rowCells(row: Row, columns: readonly ColumnRules[], styles: StyleStore, day: string): string {
  let written = '';
  let blanks = 0;
  columns.forEach((rules, at) => {
    const cell = row.findCell(at + 1);
    const xml = cell === undefined ? undefined : cellElement(cell, rules, styles, day);
    if (xml === undefined) {
      blanks += 1;
      return;
    }
    written += blankCells(blanks) + xml;
    blanks = 0;
  });
  return written;
}

function blankCells(count: number): string {
  if (count === 0) return '';
  return element('table:table-cell', { 'table:number-columns-repeated': count === 1 ? undefined : count });
}

function cellElement(
  cell: Cell,
  { mapsAt, rules }: ColumnRules,
  styles: StyleStore,
  day: string,
): string | undefined {
  const number = Number(cell.row);
  const within = ({ block }: { readonly block: Block }): boolean =>
    block.top <= number && number <= block.bottom;
  const maps = mapsAt(number);
  const rule = rules.find(within);
  const hasStyle = Object.keys(cell.style).length > 0;
  if (cell.isMerged && cell.master !== cell)
    return element(
      'table:covered-table-cell',
      hasStyle ? { 'table:style-name': styles.cell(cell.style) } : {},
    );
  const { attributes, text } = cellValue(cell);
  const note = annotation(cell, day);
  if (!hasStyle && maps.length === 0 && rule === undefined && text === '' && note === '') {
    if (Object.keys(attributes).length === 0) return undefined;
  }
  return element(
    'table:table-cell',
    {
      'table:style-name': hasStyle || maps.length > 0 ? styles.cell(cell.style, maps) : undefined,
      'table:content-validation-name': rule?.name,
      ...(cell.isMerged ? spanOf(cell) : {}),
      ...attributes,
    },
    note,
    text,
  );
}

/** How far a merged cell reaches: as far as its neighbours belong to it. */
function spanOf(cell: Cell): { readonly [name: string]: number } {
  const page = cell.worksheet;
  const [row, column] = [Number(cell.row), Number(cell.col)];
  const reach = (at: (step: number) => Cell): number => {
    let steps = 1;
    while (at(steps).isMerged && at(steps).master === cell) steps += 1;
    return steps;
  };
  return {
    'table:number-columns-spanned': reach((step) => page.getCell(row, column + step)),
    'table:number-rows-spanned': reach((step) => page.getCell(row + step, column)),
  };
}
