import type { CellErrorValue, CellFormulaValue } from 'exceljs';
import { columnLetters } from '../../sheets/address.ts';
import type { Content } from '../pages/cellContent.ts';
import type { Records } from '../pages/records.ts';
import { escapedText } from '../xml.ts';

/**
 * A sheet's part of the file with the records in place of the row that stands for them (ECMA-376 part 1, 18.3.1.73
 * and 18.3.1.4).
 *
 * @param xml the sheet as exceljs writes it, where the row of the first record holds their styles
 */
export function* withRecords(xml: string, records: Records): Generator<string> {
  const start = xml.indexOf(`<row r="${records.top}"`);
  const end = xml.indexOf('</row>', start) + '</row>'.length;
  if (start < 0 || end < start) throw new Error(`No row ${records.top} for the records to stand in`);
  yield reaching(xml.slice(0, start), records.top + records.count - 1);
  yield* recordRows(records, stylesOf(xml.slice(start, end)));
  yield xml.slice(end);
}

/** The range of cells that is filled, as far down as the records go. */
function reaching(before: string, last: number): string {
  return before.replace(
    /(<dimension ref="[A-Z]+\d+:[A-Z]+)(\d+)"/,
    (_, from: string, row: string) => `${from}${Math.max(Number(row), last)}"`,
  );
}

/** The attribute for the style of each column, from the cells of a row. */
function stylesOf(row: string): ReadonlyMap<string, string> {
  return new Map(
    [...row.matchAll(/<c r="([A-Z]+)\d+"( s="\d+")/g)].map(([, letters = '', style = '']) => [
      letters,
      style,
    ]),
  );
}

function* recordRows(records: Records, styles: ReadonlyMap<string, string>): Generator<string> {
  const columns: Column[] = [];
  const columnOf = (column: number): Column => {
    const known = columns[column] ?? columnTag(column, styles);
    columns[column] = known;
    return known;
  };
  for (let at = 0; at < records.count; at += 1) {
    const row = records.top + at;
    const height = records.heights.get(at);
    let xml = height === undefined ? `<row r="${row}">` : `<row r="${row}" ht="${height}" customHeight="1">`;
    const contents = records.contents(at);
    for (let column = 0; column < contents.length; column += 1) {
      const content = contents[column];
      if (content === undefined) continue;
      const { tag, style } = columnOf(column);
      xml += `${tag}${row}"${style}${inside(content)}`;
    }
    yield `${xml}</row>`;
  }
}

/** What the cells of a column begin with: before the number of the row, and after it. */
interface Column {
  readonly tag: string;
  readonly style: string;
}

function columnTag(column: number, styles: ReadonlyMap<string, string>): Column {
  const letters = columnLetters(column);
  return { tag: `<c r="${letters}`, style: styles.get(letters) ?? '' };
}

/** The rest of a cell's element, from its type on. */
function inside(content: Content): string {
  if (content === null) return '/>';
  switch (typeof content) {
    case 'number':
      return `><v>${content}</v></c>`;
    case 'boolean':
      return ` t="b"><v>${content ? 1 : 0}</v></c>`;
    case 'string':
      // Blanks at the edges would be lost.
      return ` t="inlineStr"><is><t xml:space="preserve">${escapedText(content)}</t></is></c>`;
  }
  return calculated(content);
}

/** A formula with the value that was found. */
function calculated({ formula, result }: CellFormulaValue): string {
  const spelled = `<f>${escapedText(formula)}</f>`;
  switch (typeof result) {
    case 'undefined':
      return `>${spelled}</c>`;
    case 'number':
      return `>${spelled}<v>${result}</v></c>`;
    case 'boolean':
      return ` t="b">${spelled}<v>${result ? 1 : 0}</v></c>`;
    case 'string':
      return ` t="str">${spelled}<v>${escapedText(result)}</v></c>`;
  }
  return ` t="e">${spelled}<v>${(result as CellErrorValue).error}</v></c>`;
}
