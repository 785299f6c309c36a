import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import start, { Model } from '@ironcalc/wasm';

/**
 * IronCalc as a further independent engine. It is given cells, not a file.
 *
 * Limits, measured on @ironcalc/wasm 0.8.4: values can be read as formatted text only. The format below
 * gives 15 significant digits (one digit more and its last digits are wrong; "general" gives 9 at times).
 * Subnormal numbers come out as "inf"; those read as an error. Its ROUND errs on ties (1.005 -> 1), so a
 * comparison with it needs the tolerance of a cent there.
 */
export type IronCalcInput = number | string | boolean | null;
export type IronCalcValue = number | string | boolean | null | { readonly error: string };

const FIFTEEN_DIGITS = '0.00000000000000E+000';
/** What `getCellType` answers (the codes of the spreadsheet function TYPE). */
const NUMBER = 1;
const BOOLEAN = 4;
const ERROR = 16;

let started: Promise<unknown> | undefined;

function startOnce(): Promise<unknown> {
  started ??= start({
    module_or_path: readFileSync(createRequire(import.meta.url).resolve('@ironcalc/wasm/wasm_bg.wasm')),
  });
  return started;
}

/** The text that a user would type. An apostrophe keeps text from being read as a number or a date. */
function typed(input: number | string | boolean): string {
  if (typeof input === 'boolean') return input ? 'TRUE' : 'FALSE';
  if (typeof input === 'number') return String(input);
  return input.startsWith('=') ? input : `'${input}`;
}

function read(model: Model, sheet: number, row: number, column: number): IronCalcValue {
  const type = model.getCellType(sheet, row, column);
  const text = model.getFormattedCellValue(sheet, row, column);
  if (type === NUMBER) {
    // An empty cell calls itself a number, too.
    if (text === '') return null;
    const number = Number(text);
    return Number.isNaN(number) ? { error: `not readable: ${text}` } : number + 0;
  }
  if (type === BOOLEAN) return text === 'TRUE';
  return type === ERROR ? { error: text } : text;
}

export type IronCalcSheets = ReadonlyMap<string, readonly (readonly IronCalcInput[])[]>;

/**
 * Evaluates a workbook once and returns the value of each cell, in the shape of the input. Text that starts
 * with "=" is a formula (in English, with commas); null is an empty cell. Throws on a refused sheet name.
 */
export async function ironCalcValues(
  sheets: IronCalcSheets,
): Promise<ReadonlyMap<string, readonly (readonly IronCalcValue[])[]>> {
  await startOnce();
  const model = new Model('check', 'en', 'UTC', 'en');
  try {
    model.pauseEvaluation();
    // All names first: a formula may point to a later sheet.
    [...sheets.keys()].forEach((name, index) => {
      if (index > 0) model.newSheet();
      model.renameSheet(index, name);
    });
    [...sheets.values()].forEach((rows, sheet) => {
      rows.forEach((cells, row) => {
        cells.forEach((input, column) => {
          if (input !== null) model.setUserInput(sheet, row + 1, column + 1, typed(input));
        });
      });
    });
    model.evaluate();
    const values = new Map<string, readonly (readonly IronCalcValue[])[]>();
    [...sheets].forEach(([name, rows], sheet) => {
      const width = Math.max(1, ...rows.map((cells) => cells.length));
      const area = { sheet, row: 1, column: 1, width, height: Math.max(1, rows.length) };
      model.updateRangeStyle(area, 'num_fmt', FIFTEEN_DIGITS);
      values.set(
        name,
        rows.map((cells, row) => cells.map((_, column) => read(model, sheet, row + 1, column + 1))),
      );
    });
    return values;
  } finally {
    model.free();
  }
}
