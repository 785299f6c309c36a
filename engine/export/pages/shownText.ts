import type { Settings } from '../../book/settings.ts';
import { isFailure, type Result } from '../../calc/values.ts';
import type { PlanColumn } from '../../sheets/plan.ts';
import { showNumber, showValue } from '../../sheets/showValue.ts';
import { digitsOfColumn, holdsText } from './numberFormats.ts';

/** What a cell will read, as far as its width goes. */
export function shownText(value: Result, column: PlanColumn, settings: Settings): string {
  if (isFailure(value)) return value.error;
  if (typeof value !== 'number' || holdsText(column.kind)) return showValue(value, column.kind, settings);
  const percent = column.kind === 'percent';
  const shown = showNumber(percent ? value * 100 : value, digitsOfColumn(column, settings), settings);
  return percent ? `${shown} %` : shown;
}
