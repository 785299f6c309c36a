import { isFailure, type Result, type Values } from '../../engine/calc/values.ts';
import { roundTo } from '../../engine/money/rounding.ts';
import { cellAddress, columnLetters, totalRow } from '../../engine/sheets/address.ts';
import type { Plan, PlanColumn, PlanSheet } from '../../engine/sheets/plan.ts';
import type { RecalculatedSheets, RecalculatedValue } from './savedValues.ts';

/** A cell of a plan, or the total under a column. */
export interface PlanCell {
  readonly sheet: PlanSheet;
  readonly column: PlanColumn;
  readonly columnAt: number;
  readonly row: number | 'total';
  /** As a spreadsheet writes it, such as `C5`. */
  readonly address: string;
  /** Row and column from 0. */
  readonly at: readonly [row: number, column: number];
}

export function planCells(plan: Plan): PlanCell[] {
  return plan.sheets.flatMap((sheet) =>
    sheet.columns.flatMap((column, columnAt) => {
      const cell = (row: number | 'total', line: number, across: number): PlanCell => {
        const address = `${columnLetters(across)}${line}`;
        return { sheet, column, columnAt, row, address, at: [line - 1, across] };
      };
      const cells = Array.from({ length: sheet.rowCount }, (_, row) => {
        const place = cellAddress(sheet, columnAt, row);
        return cell(row, place.row, place.column);
      });
      return column.total === undefined ? cells : [...cells, cell('total', totalRow(sheet), columnAt)];
    }),
  );
}

export function resultOf(values: Values, { sheet, column, row }: PlanCell): Result {
  return row === 'total' ? values.total(sheet.id, column.id) : values.get(sheet.id, column.id, row);
}

/** Sums of numbers that cancel leave dust; anything above this is a difference. */
const dust = 1e-10;

/** Numbers agree to 1e-9 relative, and money to the coin; text, truth and errors exactly. */
export function agree(ours: Result, theirs: RecalculatedValue, column: PlanColumn, plan: Plan): boolean {
  if (typeof ours === 'number' && typeof theirs === 'number') {
    const near = Math.abs(ours - theirs) <= dust + 1e-9 * Math.max(Math.abs(ours), Math.abs(theirs));
    const { currencyDigits } = plan.settings;
    return (
      near && (column.kind !== 'money' || roundTo(ours, currencyDigits) === roundTo(theirs, currencyDigits))
    );
  }
  if (isFailure(ours)) return typeof theirs === 'object' && theirs !== null && theirs.error === ours.error;
  return ours === theirs;
}

export interface Difference {
  readonly cell: PlanCell;
  readonly ours: Result;
  readonly theirs: RecalculatedValue;
}

export function differences(plan: Plan, values: Values, sheets: RecalculatedSheets): Difference[] {
  return planCells(plan).flatMap((cell) => {
    const ours = resultOf(values, cell);
    const theirs = sheets.get(cell.sheet.title)?.[cell.at[0]]?.[cell.at[1]] ?? null;
    return agree(ours, theirs, cell.column, plan) ? [] : [{ cell, ours, theirs }];
  });
}

/** One line a difference: `Sheet!Cell  heading  expected  got`. */
export function readable(found: readonly Difference[]): string {
  const show = (value: unknown): string =>
    typeof value === 'object' ? JSON.stringify(value) : `${typeof value} ${value}`;
  return found
    .map(
      ({ cell, ours, theirs }) =>
        `${cell.sheet.title}!${cell.address}  ${cell.column.heading}  expected ${show(ours)}  got ${show(theirs)}`,
    )
    .join('\n');
}

/** Values with every result wrong: a judge that reads what was cached is found out. */
export function wrongValues(values: Values): Values {
  const wrong = (result: Result): Result => {
    if (typeof result === 'number') return result * 1.37 + 11;
    if (typeof result === 'boolean') return !result;
    return 'planted';
  };
  return {
    get: (sheet, column, row) => wrong(values.get(sheet, column, row)),
    number: (sheet, column, row) => Number(wrong(values.number(sheet, column, row))),
    total: (sheet, column) => wrong(values.total(sheet, column)),
  };
}
