import { DetailedCellError, HyperFormula } from 'hyperformula';
import { expect } from 'vitest';
import type { CordFunction } from '../../engine/cord/index.ts';

/** Reads the native formula of one cord function as a spreadsheet would; `NaN` stands for #NUM!. */
export type NativeReader = (...values: readonly number[]) => number;

/**
 * A sheet with the arguments in A1, B1, ... and the native formula below them, in an engine that knows no
 * cord function: what it computes, any spreadsheet program computes.
 */
export function nativeOf(rule: CordFunction, spell: (cell: string) => string = (cell) => cell): NativeReader {
  const cells = rule.args.map((_, i) => `${String.fromCharCode(65 + i)}1`);
  const sheet = HyperFormula.buildFromArray([cells.map(() => 0), [`=${rule.native(cells.map(spell))}`]], {
    licenseKey: 'gpl-v3',
    smartRounding: false,
  });
  return (...values) => {
    sheet.setCellContents({ sheet: 0, row: 0, col: 0 }, [[...values]]);
    const result = sheet.getCellValue({ sheet: 0, row: 1, col: 0 });
    if (result instanceof DetailedCellError && result.type === 'NUM') return Number.NaN;
    if (typeof result !== 'number') throw new Error(`${rule.name}(${values}) gave ${JSON.stringify(result)}`);
    return result;
  };
}

/** Both spellings say the same, or both say that there is no answer. */
export function expectAgreement(rule: CordFunction, native: NativeReader, values: readonly number[]): void {
  const computed = rule.compute(...values);
  const read = native(...values);
  if (Number.isNaN(computed)) expect(read, `${rule.name}(${values})`).toBeNaN();
  else expect(Math.abs(read - computed)).toBeLessThanOrEqual(1e-12 * Math.abs(computed));
}
