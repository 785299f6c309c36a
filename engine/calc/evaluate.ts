import { DetailedCellError, HyperFormula } from 'hyperformula';
import { cellAddress, engineRow, totalRow } from '../sheets/address.ts';
import type { CellValue, Plan, PlanSheet } from '../sheets/plan.ts';
import { headingRow, PlanIndex } from '../sheets/planIndex.ts';
import { engineSpelling, Speller } from '../sheets/spell.ts';
import { registerCords } from './cordPlugin.ts';
import { registerRounding } from './roundingPlugin.ts';
import type { Result, Values } from './values.ts';

/**
 * Options of the calculation engine, in one place.
 * - smartRounding off: values come out as they are; together with our own rounding, no cell of 300,000
 *   differed from LibreOffice (with it on, one in forty did).
 * - accentSensitive: é is not e, as in spreadsheet programs.
 * - useArrayArithmetic: without it SUMPRODUCT over a comparison is silently 0.
 * - maxRows: the default of 40,000 would refuse the cuts of a large book.
 */
const options = {
  licenseKey: 'gpl-v3',
  smartRounding: false,
  useArrayArithmetic: true,
  accentSensitive: true,
  maxRows: 1_000_000,
  maxColumns: 1_000,
} as const;

type RawCell = string | number | boolean | null;

/** Calculates a plan with the reference engine. Failing cells come back as failures, never as exceptions. */
export function evaluate(plan: Plan): Values {
  registerRounding();
  registerCords();
  const index = new PlanIndex(plan);
  const engine = HyperFormula.buildFromSheets(engineCells(index), options);
  const results = new Map<string, Result[][]>();
  for (const sheet of plan.sheets) {
    const grid = engine.getSheetValues(engine.getSheetId(sheet.id)!);
    results.set(
      sheet.id,
      grid.map((line) => line.map(resultOf)),
    );
  }
  engine.destroy();
  return new GridValues(index, results);
}

/** The cells that the calculation engine is given, by sheet: also what the benchmark feeds to it bare. */
export function engineCells(index: PlanIndex): Record<string, RawCell[][]> {
  const speller = new Speller(index, engineSpelling);
  const sheets: Record<string, RawCell[][]> = {};
  for (const sheet of index.plan.sheets) sheets[sheet.id] = sheetCells(sheet, speller);
  return sheets;
}

function sheetCells(sheet: PlanSheet, speller: Speller): RawCell[][] {
  const height = sheet.layout === 'form' ? headingRow + sheet.columns.length : totalRow(sheet);
  const width = sheet.layout === 'form' ? 2 : sheet.columns.length;
  const cells: RawCell[][] = Array.from({ length: height }, () => Array<RawCell>(width).fill(null));
  sheet.columns.forEach((column, at) => {
    const { inputs } = column;
    for (let row = 0; row < sheet.rowCount; row += 1) {
      const address = cellAddress(sheet, at, engineRow(sheet, row));
      cells[address.row - 1]![address.column] =
        inputs === undefined ? `=${speller.formula(sheet, column, row)}` : rawInput(inputs[row] ?? null);
    }
    const bottom = cells[totalRow(sheet) - 1];
    if (column.total !== undefined && bottom !== undefined) bottom[at] = `=${speller.total(sheet, at)}`;
  });
  return cells;
}

/** The apostrophe keeps text text: "12", "=1+1" or "TRUE" in a name is neither a number nor a formula. */
function rawInput(value: CellValue): RawCell {
  return typeof value === 'string' ? `'${value}` : value;
}

function resultOf(raw: unknown): Result {
  if (raw instanceof DetailedCellError) return { error: raw.value };
  if (typeof raw === 'number' || typeof raw === 'string' || typeof raw === 'boolean') return raw;
  return null;
}

class GridValues implements Values {
  readonly #index: PlanIndex;
  readonly #results: ReadonlyMap<string, readonly (readonly Result[])[]>;

  constructor(index: PlanIndex, results: ReadonlyMap<string, readonly (readonly Result[])[]>) {
    this.#index = index;
    this.#results = results;
  }

  get(sheet: string, column: string, row: number): Result {
    const indexed = this.#index.sheet(sheet);
    const at = indexed.columns.get(column)?.at;
    if (at === undefined) throw new Error(`No column ${sheet}.${column} in the plan`);
    const address = cellAddress(indexed.sheet, at, engineRow(indexed.sheet, row));
    return this.#results.get(sheet)?.[address.row - 1]?.[address.column] ?? null;
  }

  number(sheet: string, column: string, row: number): number {
    const result = this.get(sheet, column, row);
    return typeof result === 'number' ? result : 0;
  }

  total(sheet: string, column: string): Result {
    const indexed = this.#index.sheet(sheet);
    const at = indexed.columns.get(column)!.at;
    return this.#results.get(sheet)?.[totalRow(indexed.sheet) - 1]?.[at] ?? null;
  }
}
