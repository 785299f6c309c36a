import type { Plan } from '../sheets/plan.ts';
import { isFailure, type Result, type Values } from './values.ts';

/**
 * The same value, but for the last bits of sums that were added in another order: 1e-12 of the value, or
 * 1e-10 where sums nearly cancel.
 */
export function agrees(one: Result, other: Result): boolean {
  if (isFailure(one) && isFailure(other)) return one.error === other.error;
  if (typeof one === 'number' && typeof other === 'number') {
    return Math.abs(one - other) <= Math.max(1e-10, 1e-12 * Math.max(Math.abs(one), Math.abs(other)));
  }
  return one === other;
}

/** Cells in which two calculations of a plan differ, each as a line for an engineer. */
export function disagreements(plan: Plan, one: Values, other: Values): string[] {
  const found: string[] = [];
  const hold = (where: string, left: Result, right: Result): void => {
    if (!agrees(left, right))
      found.push(`${where}: ${JSON.stringify(left)} against ${JSON.stringify(right)}`);
  };
  for (const sheet of plan.sheets) {
    for (const column of sheet.columns) {
      const where = `${sheet.id}.${column.id}`;
      for (let row = 0; row < sheet.rowCount; row += 1) {
        hold(
          `${where} row ${row + 1}`,
          one.get(sheet.id, column.id, row),
          other.get(sheet.id, column.id, row),
        );
      }
      if (column.total !== undefined) {
        hold(`${where} total`, one.total(sheet.id, column.id), other.total(sheet.id, column.id));
      }
    }
  }
  return found;
}
