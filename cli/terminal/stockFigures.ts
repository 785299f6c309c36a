import { type StockItemReport, type StockReport, showNumber, showValue } from '../../engine/index.ts';
import type { ShowHow } from './showHow.ts';
import type { TableColumn } from './table.ts';

export interface StockHow extends ShowHow {
  /** What was asked: what is there, what came and went, or the movements of one item. */
  readonly view: 'on hand' | 'roll' | 'movements';
}

export function money(value: number, { settings }: ShowHow): string {
  return showValue(value, 'money', settings);
}

/** Finished pieces are whole; of materials decimals stand under each other. */
export function amount(value: number, how: StockHow, kind: StockItemReport['kind'] = 'material'): string {
  return showNumber(value, kind === 'product' ? 0 : 2, how.settings);
}

export function kindOf(report: StockReport, name: string): StockItemReport['kind'] {
  return report.items.find(({ item }) => item === name)?.kind ?? 'material';
}

export const right = (heading: string): TableColumn => ({ heading, align: 'right' });
