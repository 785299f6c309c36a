import { cordFunctions } from '../../engine/cord/index.ts';

/**
 * Formulas that use every function a sheet may use, on plain values and on cells of a book, with the cases
 * in which spreadsheet programs are known to part company: ties, negatives, blanks, text that looks like a
 * number. A function without a line here fails the test that asks for it.
 */
export const functionCases: Readonly<Record<string, readonly string[]>> = {
  ABS: ['ABS(-2.5)', 'ABS(1 - 3 * 0.1)'],
  AND: ['IF(AND(1 < 2, 2 < 3), 1, 2)', 'IF(AND(1 = 1, rates.wage_per_hour < 0), 1, 2)'],
  AVERAGE: ['AVERAGE(materials.unit_cost)', 'AVERAGE(1, 2, 4)'],
  CEILING: [
    'CEILING(4.1, 0.5)',
    'CEILING(0.3, 0.1)',
    'CEILING(7, 7)',
    'CEILING(0, 0.25)',
    'CEILING(1.15, 0.05)',
  ],
  COS: ['COS(1)'],
  COUNT: ['COUNT(materials.diameter)', 'COUNT(materials.name)'],
  COUNTA: ['COUNTA(materials.diameter)', 'COUNTA(products.product)'],
  COUNTIF: [
    'COUNTIF(materials.sold_by, "length")',
    'COUNTIF(materials.pack_price, ">20")',
    'COUNTIF(materials.sold_by, "LENGTH")',
  ],
  COUNTIFS: ['COUNTIFS(materials.sold_by, "length", materials.pack_price, "<60")'],
  EXP: ['EXP(1)'],
  FLOOR: ['FLOOR(4.9, 0.5)', 'FLOOR(0.3, 0.1)', 'FLOOR(1.15, 0.05)'],
  IF: [
    'IF(1 = 1, "yes", "no")',
    'IF("a" = "A", "same", "other")',
    'IF(1 <> 1, 1, "")',
    'IF(TRUE, 1, 2)',
    'IF(FALSE, 1, 2)',
  ],
  IFERROR: ['IFERROR(1 / 0, 7)', 'IFERROR(2, 7)'],
  IFNA: ['IFNA(3, 7)'],
  INT: ['INT(-1.5)', 'INT(0.29 * 100)', 'INT(8)'],
  ISNUMBER: ['IF(ISNUMBER("2"), 1, 2)', 'IF(ISNUMBER(rates.wage_per_hour), 1, 2)'],
  ISTEXT: ['IF(ISTEXT("2"), 1, 2)', 'IF(ISTEXT(rates.wage_per_hour), 1, 2)'],
  LEN: ['LEN("three words here")', 'LEN("")'],
  LN: ['LN(10)'],
  LOWER: ['LOWER("Half-Knot BAR")'],
  MAX: ['MAX(materials.pack_price)', 'MAX(-1, -2)'],
  MAXIFS: ['MAXIFS(materials.pack_price, materials.sold_by, "length")'],
  MIN: ['MIN(materials.pack_price)', 'MIN(3, 2.5)'],
  MINIFS: ['MINIFS(materials.pack_price, materials.sold_by, "piece")'],
  MOD: ['MOD(7, 3)', 'MOD(-7, 3)', 'MOD(5.5, 2)'],
  MROUND: ['MROUND(7.4, 0.5)', 'MROUND(7.25, 0.5)', 'MROUND(13, 5)'],
  NOT: ['IF(NOT(1 > 2), 1, 2)'],
  OR: ['IF(OR(1 > 2, 3 > 2), 1, 2)'],
  PI: ['PI()'],
  RADIANS: ['RADIANS(38)'],
  ROUND: ['ROUND(1.005, 2)', 'ROUND(0.285, 2)', 'ROUND(10.075, 2)', 'ROUND(-2.5, 0)', 'ROUND(1234.5678, -2)'],
  ROUNDDOWN: ['ROUNDDOWN(4.35, 2)', 'ROUNDDOWN(-1.999, 1)', 'ROUNDDOWN(0.29 * 100, 0)'],
  ROUNDUP: ['ROUNDUP(4.35, 2)', 'ROUNDUP(-1.001, 1)', 'ROUNDUP(2, 0)'],
  SIN: ['SIN(1)'],
  SQRT: ['SQRT(2)'],
  SUM: ['SUM(materials.pack_price)', 'SUM(1, 2.5, -3)', '0.1 + 0.2 - 0.3'],
  SUMIF: ['SUMIF(materials.sold_by, "piece", materials.pack_price)'],
  SUMIFS: ['SUMIFS(materials.pack_price, materials.sold_by, "length", materials.pack, ">0")'],
  SUMPRODUCT: ['SUMPRODUCT(materials.pack_price, materials.pack)'],
  SWITCH: ['SWITCH("b", "a", 1, "b", 2, 3)', 'SWITCH("z", "a", 1, "b", 2, 3)'],
  TAN: ['TAN(1)'],
  TRUNC: ['TRUNC(-1.9)', 'TRUNC(8.375, 2)', 'TRUNC(0.29 * 100)'],
  UPPER: ['UPPER("Half-knot bar")'],
  ...Object.fromEntries(cordFunctions.map(({ name, args }) => [name, cordCases(name, args.length)])),
};

/** Arguments inside every cord function's domain; a new one with a narrower domain needs its own line. */
function cordCases(name: string, count: number): string[] {
  const own: Readonly<Record<string, readonly string[]>> = {
    BRAID_CORD: ['38'],
    PLAIT_CORD: ['3, 35, 1.743'],
    BAR_CORD: ['2, 1, 2, 1.375'],
    ROUND_BRAID_CORD: ['4, 40, 3, 1'],
    TWIST_CORD: ['2, 1.17, 12'],
    STRIPE_CORD: ['1.17'],
    BAND_CORD: ['2, 1, 1.17, 2'],
    SLIP_LOOP_CORD: ['2, 1.17'],
    ZIGZAG_CORD: ['3, 1'],
    SPARE_FACTOR: [
      '0.02, 1',
      '0.02, 2',
      '0.05, 4',
      '0.001, 7',
      '0.1, 30',
      '0.02, 1000',
      '0.02, 1000000',
      '0.25, 3',
      'rates.chance_of_short_percent, 4',
    ],
    SPARE_LEFT: ['0', '0.4', '2.0537', '2 * 3.1', '15.9'],
  };
  const values = own[name] ?? [['2', '1.5', '4', '3'].slice(0, count).join(', ')];
  return values.map((each) => `${name}(${each})`);
}

/** The cases as a maker's own sheet file, one row each. */
export function functionSheet(): string {
  const rows = Object.entries(functionCases).flatMap(([name, formulas]) =>
    formulas.map((formula, at) => `    - what: ${name} ${at + 1}\n      gives: '${formula}'`),
  );
  return `sheet: functions
place: 950
title: Functions
answers: What every function gives.
rows:
  list:
${rows.join('\n')}
columns:
  - id: what
    heading: What
    kind: key
  - id: gives
    heading: Gives
    kind: number
    formula: by row
`;
}
