import type { Worksheet } from 'exceljs';
import type { Records } from '../pages/records.ts';
import { cssColour } from '../palette.ts';
import { element } from '../xml.ts';
import { type Block, type BlockMaps, blockOf, conditionalLooks } from './conditions.ts';
import { rangeAddress } from './openFormula.ts';
import { recordRows } from './recordRows.ts';
import { type ColumnRules, rowCells, rowElement } from './rowCells.ts';
import { noMaps, type StyleMap, type StyleStore } from './styleStore.ts';
import type { Validations } from './validations.ts';

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
  for (let number = 1; number <= page.rowCount; number += 1) {
    // The row of the first record stands for all of them.
    if (records !== undefined && records.top < number && number <= lastRecord) continue;
    const row = page.findRow(number);
    if (records?.top === number && row !== undefined) {
      rows.push(recordRows(records, row, columns, styles, usual));
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
