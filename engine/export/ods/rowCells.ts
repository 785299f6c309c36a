import type { Cell, Row } from 'exceljs';
import { element } from '../xml.ts';
import { annotation, cellValue } from './cell.ts';
import type { Block } from './conditions.ts';
import type { StyleMap, StyleStore } from './styleStore.ts';
import type { BlockRule } from './validations.ts';

/** What cells of a column have to know beside their own style. */
export interface ColumnRules {
  readonly mapsAt: (row: number) => readonly StyleMap[];
  readonly rules: readonly BlockRule[];
}

/** A row with its cells, which are XML already. */
export function rowElement(style: string, cells: string): string {
  return element('table:table-row', { 'table:style-name': style }, cells || element('table:table-cell'));
}

/** Cells up to the last that holds or shows something; blank ones without a look are counted, not listed. */
export function rowCells(row: Row, columns: readonly ColumnRules[], styles: StyleStore, day: string): string {
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

/** So many cells in which nothing stands. */
export function blankCells(count: number): string {
  if (count === 0) return '';
  return element('table:table-cell', { 'table:number-columns-repeated': count === 1 ? undefined : count });
}
