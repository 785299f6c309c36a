import { cordFunctions } from '../cord/index.ts';

/** A function that a formula sheet may use. */
export interface SheetFunction {
  readonly fewest: number;
  readonly most: number;
  /** Takes whole columns: `SUM(cuts.cost)`. */
  readonly aggregate: boolean;
  /** Newer than the file format: the name is written with this prefix in an .xlsx file. */
  readonly xlsxPrefix?: string;
}

const many = Number.POSITIVE_INFINITY;
const plain = (fewest: number, most: number = fewest): SheetFunction => ({ fewest, most, aggregate: false });
const over = (fewest: number, most: number = many): SheetFunction => ({ fewest, most, aggregate: true });
const newer = (made: SheetFunction): SheetFunction => ({ ...made, xlsxPrefix: '_xlfn.' });

/**
 * The functions of a formula sheet: those of OpenFormula (ODF 1.3 part 4) that the calculation engine and
 * common spreadsheet programs share and agree on, and the cord functions, which are written out as plain
 * formulas in a workbook. A test recomputes every one in LibreOffice.
 */
export const sheetFunctions: ReadonlyMap<string, SheetFunction> = new Map<string, SheetFunction>([
  ['ABS', plain(1)],
  ['AND', over(1)],
  ['AVERAGE', over(1)],
  ['CEILING', plain(2)],
  ['COS', plain(1)],
  ['COUNT', over(1)],
  ['COUNTA', over(1)],
  ['COUNTIF', over(2, 2)],
  ['COUNTIFS', over(2)],
  ['EXP', plain(1)],
  ['FLOOR', plain(2)],
  ['IF', plain(3)],
  ['IFERROR', plain(2)],
  ['IFNA', newer(plain(2))],
  ['INT', plain(1)],
  ['ISNUMBER', plain(1)],
  ['ISTEXT', plain(1)],
  ['LEN', plain(1)],
  ['LN', plain(1)],
  ['LOWER', plain(1)],
  ['MAX', over(1)],
  ['MAXIFS', newer(over(3))],
  ['MIN', over(1)],
  ['MINIFS', newer(over(3))],
  ['MOD', plain(2)],
  ['MROUND', plain(2)],
  ['NOT', plain(1)],
  ['OR', over(1)],
  ['PI', plain(0)],
  ['RADIANS', plain(1)],
  ['ROUND', plain(2)],
  ['ROUNDDOWN', plain(2)],
  ['ROUNDUP', plain(2)],
  ['SIN', plain(1)],
  ['SQRT', plain(1)],
  ['SUM', over(1)],
  ['SUMIF', over(2, 3)],
  ['SUMIFS', over(3)],
  ['SUMPRODUCT', over(1)],
  ['SWITCH', newer(plain(3, many))],
  ['TAN', plain(1)],
  ['TRUNC', plain(1, 2)],
  ['UPPER', plain(1)],
  ...cordFunctions.map((each): [string, SheetFunction] => [each.name, plain(each.args.length)]),
]);
