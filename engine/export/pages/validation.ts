import type { DataValidation, Worksheet } from 'exceljs';
import type { Settings } from '../../book/settings.ts';
import { columnLetters } from '../../sheets/address.ts';
import type { PlanColumn } from '../../sheets/plan.ts';
import { headingRow, type PlanIndex } from '../../sheets/planIndex.ts';
import { showNumber } from '../../sheets/showValue.ts';
import { workbookSpelling } from '../../sheets/spell.ts';
import { holdsText } from './numberFormats.ts';

/** Excel refuses files whose words in a drop-down are longer than this. */
const mostListLetters = 255;

/** Bounds of each numeric kind whatever the column says, so that text is refused. */
const anyNumber = 1e12;

/** exceljs keeps rules by range but does not say so in its types. */
interface RangeRules {
  add(range: string, rule: DataValidation): void;
}

/**
 * Drop-downs and bounds for the cells of an input or override column.
 *
 * @param range the column's cells, such as `C3:C20`
 */
export function addValidation(page: Worksheet, range: string, column: PlanColumn, index: PlanIndex): void {
  if (column.role !== 'input' && column.role !== 'override') return;
  const rule = ruleFor(column, index, index.plan.settings, range.split(':')[0]!);
  if (rule !== undefined)
    (page as Worksheet & { dataValidations: RangeRules }).dataValidations.add(range, rule);
}

function ruleFor(
  column: PlanColumn,
  index: PlanIndex,
  settings: Settings,
  first: string,
): DataValidation | undefined {
  if (column.of !== undefined)
    return listRule(
      keyRange(column.of, index),
      `Pick one of the names on the sheet ${index.sheet(column.of).sheet.title}.`,
    );
  if (column.kind === 'yes_no') return wordsRule(['yes', 'no'], first);
  if (column.choices !== undefined) return wordsRule(column.choices, first);
  if (holdsText(column.kind)) return undefined;
  return numberRule(column, settings, first);
}

function keyRange(sheetId: string, index: PlanIndex): string {
  const { sheet, columns } = index.sheet(sheetId);
  const letters = columnLetters(columns.get(sheet.key[0] ?? '')?.at ?? 0);
  const last = headingRow + Math.max(sheet.rowCount, 1);
  return `${workbookSpelling.sheetName(sheet)}!$${letters}$${headingRow + 1}:$${letters}$${last}`;
}

function listRule(source: string, error: string): DataValidation {
  return {
    type: 'list',
    allowBlank: true,
    showErrorMessage: true,
    errorStyle: 'stop',
    errorTitle: 'Not in the list',
    error: clip(error),
    formulae: [source],
  };
}

/** A list of words; where commas or length forbid one, the same test as a formula, without the drop-down. */
function wordsRule(words: readonly string[], first: string): DataValidation {
  const error = `One of: ${words.join(', ')}.`;
  const inline = words.join(',');
  if (inline.length <= mostListLetters && words.every((word) => !/[,"]/.test(word)))
    return listRule(`"${inline}"`, error);
  const tests = words.map((word) => `${first}="${word.replaceAll('"', '""')}"`);
  return {
    type: 'custom',
    allowBlank: true,
    showErrorMessage: true,
    errorStyle: 'stop',
    errorTitle: 'Not one of the words',
    error: clip(error),
    formulae: [`OR(${tests.join(',')})`],
  };
}

function numberRule(column: PlanColumn, settings: Settings, first: string): DataValidation {
  const scale = column.kind === 'percent' ? 100 : 1;
  const { min, above, max, below } = column.bounds;
  const tests: string[] = [];
  if (min !== undefined) tests.push(`${first}>=${min / scale}`);
  if (above !== undefined) tests.push(`${first}>${above / scale}`);
  if (max !== undefined) tests.push(`${first}<=${max / scale}`);
  if (below !== undefined) tests.push(`${first}<${below / scale}`);
  const whole = column.kind === 'count';
  const base: DataValidation = {
    type: whole ? 'whole' : 'decimal',
    allowBlank: true,
    showErrorMessage: true,
    errorStyle: 'stop',
    errorTitle: whole ? 'A whole number, please' : 'A number, please',
    error: clip(boundsWords(column, settings)),
    formulae: [],
  };
  const low = min ?? above;
  const high = max ?? below;
  if (tests.length > 1 && (above !== undefined || below !== undefined)) {
    const isWhole = whole ? [`INT(${first})=${first}`] : [];
    return {
      ...base,
      type: 'custom',
      formulae: [`AND(ISNUMBER(${first}),${[...isWhole, ...tests].join(',')})`],
    };
  }
  if (low !== undefined && high !== undefined)
    return { ...base, operator: 'between', formulae: [low / scale, high / scale] };
  if (low !== undefined)
    return {
      ...base,
      operator: min === undefined ? 'greaterThan' : 'greaterThanOrEqual',
      formulae: [low / scale],
    };
  if (high !== undefined)
    return {
      ...base,
      operator: max === undefined ? 'lessThan' : 'lessThanOrEqual',
      formulae: [high / scale],
    };
  return { ...base, operator: 'between', formulae: [-anyNumber, anyNumber] };
}

/** What would be right, in the words and units of the column. */
function boundsWords(column: PlanColumn, settings: Settings): string {
  const unit = column.kind === 'percent' ? ' %' : '';
  const show = (bound: number): string =>
    `${showNumber(bound, Number.isInteger(bound) ? 0 : 2, settings)}${unit}`;
  const { min, above, max, below } = column.bounds;
  const parts: string[] = [];
  if (min !== undefined) parts.push(`${show(min)} or more`);
  if (above !== undefined) parts.push(`more than ${show(above)}`);
  if (max !== undefined) parts.push(`${show(max)} or less`);
  if (below !== undefined) parts.push(`less than ${show(below)}`);
  const what = `${column.heading}: ${column.kind === 'count' ? 'a whole number' : 'a number'}`;
  return parts.length === 0 ? `${what}.` : `${what}, ${parts.join(' and ')}.`;
}

function clip(text: string): string {
  return text.length <= mostListLetters ? text : `${text.slice(0, mostListLetters - 1)}…`;
}
