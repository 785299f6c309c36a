import type { Cell, CellErrorValue, CellFormulaValue, CellHyperlinkValue, CellValue } from 'exceljs';
import type { Content } from '../pages/cellContent.ts';
import { type Attributes, element, escapedText } from '../xml.ts';
import { formatKind } from './dataStyle.ts';
import { openFormula, targetAddress } from './openFormula.ts';
import { paragraphs } from './paragraphs.ts';

/** A cell's value as attributes of the cell, and what stands in the cell for who reads only that. */
interface CellValueXml {
  readonly attributes: Attributes;
  readonly text: string;
}

const nothing: CellValueXml = { attributes: {}, text: '' };

/** The value of a cell, its formula with the value that was found. */
export function cellValue(cell: Cell): CellValueXml {
  const { value } = cell;
  // In the value of a formula exceljs leaves out what is 0, empty or false; it is kept beside it.
  if (isFormula(value))
    return calculatedValue(openFormula(value.formula), cell.result as CellValue, cell.numFmt);
  if (isLink(value)) {
    if (value.hyperlink.includes(':')) throw new Error(`No link inside the workbook: ${value.hyperlink}`);
    const link = { 'xlink:href': `#${targetAddress(value.hyperlink)}`, 'xlink:type': 'simple' };
    return {
      attributes: typed('string'),
      text: paragraphs(value.text, (inside) => element('text:a', link, inside)),
    };
  }
  return plainValue(value, cell.numFmt);
}

/**
 * What a record's cell holds.
 *
 * @param spell a formula as OpenFormula has it
 */
export function contentValue(
  content: Content,
  format: string | undefined,
  spell: (formula: string) => string,
): CellValueXml {
  if (typeof content === 'object' && content !== null)
    return calculatedValue(spell(content.formula), content.result ?? null, format);
  return plainValue(content, format);
}

function calculatedValue(formula: string, result: CellValue, format: string | undefined): CellValueXml {
  const { attributes, text } = plainValue(result, format);
  return { attributes: { 'table:formula': `of:=${formula}`, ...attributes }, text };
}

function plainValue(value: CellValue, format: string | undefined): CellValueXml {
  if (value === null || value === undefined) return nothing;
  if (typeof value === 'string') {
    // The attribute, where it is given, is the value: an empty text has no other, and LibreOffice loses tabs.
    const spelled = value === '' || value.includes('\t') ? { 'office:string-value': value } : {};
    return { attributes: { ...typed('string'), ...spelled }, text: paragraphs(value) };
  }
  if (typeof value === 'boolean') {
    const attributes = { ...typed('boolean'), 'office:boolean-value': value };
    return { attributes, text: paragraphs(value ? 'TRUE' : 'FALSE') };
  }
  if (typeof value === 'number') {
    const isShare = format !== undefined && formatKind(format) === 'percentage';
    const attributes = { ...typed(isShare ? 'percentage' : 'float'), 'office:value': value };
    return { attributes, text: paragraphs(String(value)) };
  }
  if (value instanceof Date) {
    const day = value
      .toISOString()
      .replace(/T00:00:00\.000Z$/, '')
      .replace(/\.000Z$/, '');
    return { attributes: { ...typed('date'), 'office:date-value': day }, text: paragraphs(day) };
  }
  if (isError(value)) {
    // There is no type for errors: they are texts, which LibreOffice tells apart by its own attribute.
    const attributes = {
      'office:value-type': 'string',
      'office:string-value': '',
      'calcext:value-type': 'error',
    };
    return { attributes, text: paragraphs(value.error) };
  }
  throw new Error(`No value of the workbook: ${JSON.stringify(value)}`);
}

function typed(type: string): Attributes {
  return { 'office:value-type': type, 'calcext:value-type': type };
}

/** The note of a cell. */
export function annotation(cell: Cell, day: string): string {
  const { note } = cell;
  if (note === undefined) return '';
  const text = typeof note === 'string' ? note : (note.texts ?? []).map((part) => part.text).join('');
  return element(
    'office:annotation',
    { 'office:display': false },
    element('dc:date', {}, escapedText(day)),
    paragraphs(text),
  );
}

function isFormula(value: CellValue): value is CellFormulaValue {
  return typeof value === 'object' && value !== null && 'formula' in value;
}

function isLink(value: CellValue): value is CellHyperlinkValue {
  return typeof value === 'object' && value !== null && 'hyperlink' in value;
}

function isError(value: CellValue): value is CellErrorValue {
  return typeof value === 'object' && value !== null && 'error' in value;
}
