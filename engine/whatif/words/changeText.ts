import type { CellValue, Plan, PlanColumn, PlanSheet } from '../../sheets/plan.ts';
import { showNumber, showTrimmed, showValue } from '../../sheets/showValue.ts';
import { type Alteration, altered, type InputCells } from './change.ts';

/** More names than this are counted, not listed. */
const mostNames = 4;
const mostDigits = 6;

export function columnOf(plan: Plan, cells: Pick<InputCells, 'sheet' | 'column'>): PlanColumn | undefined {
  return plan.sheets.find(({ id }) => id === cells.sheet)?.columns.find(({ id }) => id === cells.column);
}

/** What is changed: `Pack price of slate cord, rust cord, moss cord, cream cord and 7 more`. */
export function inputsText(cells: readonly InputCells[], plan: Plan): string {
  const short = cells.map((each) => headingOf(each, plan).replace(/,[^,]*$/, ''));
  return cells
    .map((each, at) => {
      const sheet = plan.sheets.find(({ id }) => id === each.sheet);
      // Fixed, an order and fixed, a piece are two figures: then the unit tells them apart.
      const twice = short.indexOf(short[at]!) !== short.lastIndexOf(short[at]!);
      const heading = twice ? headingOf(each, plan) : short[at]!;
      if (sheet === undefined || sheet.layout === 'form') return heading;
      const names = [...new Set(each.rows.map((row) => rowName(sheet, row)))];
      const some = names.slice(0, names.length === mostNames + 1 ? names.length : mostNames).join(', ');
      const more = names.length - mostNames;
      return `${heading} of ${some}${more > 1 ? ` and ${more} more` : ''}`;
    })
    .join('; ');
}

/**
 * What happens to it: `+12 %`, `+0.50 USD each`, `+1.5 points`, `to 27.00 USD`; of a single figure what it was and becomes.
 *
 * @param sum of cells that move as one figure; absent where each moves by itself
 */
export function effectText(
  alteration: Alteration,
  cells: readonly InputCells[],
  plan: Plan,
  sum?: number,
): string {
  const [first] = cells;
  const column = first === undefined ? undefined : columnOf(plan, first);
  if (first === undefined || column === undefined) return '';
  const { kind } = column;
  const { settings } = plan;
  const word = unitWord(kind, settings);
  const unit = word === '' ? '' : ` ${word}`;
  const isMany = sum === undefined && cells.reduce((all, { rows }) => all + rows.length, 0) > 1;
  const shown = (value: CellValue): string => showValue(value, kind, settings);
  const only = cells.length === 1 && first.rows.length === 1 ? column.inputs?.[first.rows[0]!] : undefined;
  const before = sum ?? only ?? null;
  const after =
    typeof before === 'number' ? `${shown(before)} to ${shown(altered(before, alteration))}${unit}` : '';
  if (alteration.how === 'value') return after === '' ? `to ${shown(alteration.value)}${unit}` : after;
  const sign = alteration.by < 0 ? '-' : '+';
  const size = Math.abs(alteration.by);
  const share = (): string => `${sign}${showTrimmed(size * 100, mostDigits, settings)}`;
  const by =
    alteration.how === 'percent'
      ? `${share()} %`
      : kind === 'percent'
        ? `${share()} points`
        : `${sign}${amount(size, kind, plan)}${unit}${isMany ? ' each' : ''}`;
  return after === '' ? by : `${by}, ${after}`;
}

/** The unit in which the cells of a column are; blank where the kind of its figures does not say. */
function unitWord(kind: PlanColumn['kind'], settings: Plan['settings']): string {
  if (kind.startsWith('money')) return settings.currency;
  const words: Partial<Record<PlanColumn['kind'], string>> = {
    length: settings.lengthUnit,
    cord: settings.cordUnit,
    fine: 'mm',
    weight: settings.weightUnit,
    minutes: 'min',
    hours: 'h',
  };
  return words[kind] ?? '';
}

function amount(size: number, kind: PlanColumn['kind'], plan: Plan): string {
  const { settings } = plan;
  return kind.startsWith('money')
    ? showNumber(size, settings.currencyDigits, settings)
    : showTrimmed(size, mostDigits, settings);
}

function headingOf(cells: InputCells, plan: Plan): string {
  return columnOf(plan, cells)?.heading ?? cells.column;
}

function rowName(sheet: PlanSheet, row: number): string {
  const [first = '', second = ''] = sheet.columns
    .filter((column) => sheet.key.includes(column.id))
    .map((column) => String(column.inputs?.[row] ?? ''))
    .filter((each) => each !== '');
  return second === '' ? first : `${first} (${second})`;
}
