import { HyperFormula } from 'hyperformula';
import { expect, test } from 'vitest';
import { registerRounding } from '../../engine/calc/roundingPlugin.ts';

registerRounding();

function valuesOf(formulas: readonly string[]): readonly unknown[] {
  const engine = HyperFormula.buildFromArray(
    formulas.map((formula) => [formula]),
    { licenseKey: 'gpl-v3', smartRounding: false },
  );
  const values = formulas.map((_, row) => {
    const value = engine.getCellValue({ sheet: 0, row, col: 0 });
    return typeof value === 'object' && value !== null ? value.value : value;
  });
  engine.destroy();
  return values;
}

test('ours win over the functions of the same name', () => {
  expect(valuesOf(['=ROUND(1.005,2)', '=INT(0.29*100)', '=INT(-1.5)', '=ROUNDDOWN(4.35,2)'])).toEqual([
    1.01, 29, -2, 4.35,
  ]);
  expect(valuesOf(['=TRUNC(-1.29*100)', '=FLOOR(0.3,0.1)', '=MOD(1,0.1)', '=CEILING(5,0)'])).toEqual([
    -129, 0.3, 0, 0,
  ]);
  expect(valuesOf(['=ROUNDUP(1.1*1.1,2)', '=MROUND(1.03,0.05)', '=MOD(-7,3)'])).toEqual([1.21, 1.05, 2]);
});

test('registering again changes nothing, and later engines still have ours', () => {
  const before = HyperFormula.getFunctionPlugin('ROUND');
  registerRounding();
  expect(HyperFormula.getFunctionPlugin('ROUND')).toBe(before);
  expect(valuesOf(['=ROUND(2.675,2)'])).toEqual([2.68]);
});

test('digits may be left out, may be cut, and may be negative', () => {
  expect(
    valuesOf(['=ROUND(2.5)', '=ROUND(1/3,2.9)', '=ROUND(5555,-1)', '=TRUNC(2.9)', '=round(1.005,2)']),
  ).toEqual([3, 0.33, 5560, 2, 1.01]);
});

test('errors are those of a spreadsheet', () => {
  expect(valuesOf(['=ROUND("a",2)', '=INT("x")', '=MOD(5,0)', '=FLOOR(5,0)'])).toEqual([
    '#VALUE!',
    '#VALUE!',
    '#DIV/0!',
    '#DIV/0!',
  ]);
  expect(valuesOf(['=CEILING(5,-2)', '=FLOOR(5,-2)', '=MROUND(5,-2)', '=MROUND(-5,2)'])).toEqual([
    '#NUM!',
    '#NUM!',
    '#NUM!',
    '#NUM!',
  ]);
  expect(valuesOf(['=ROUND(1/0,2)', '=MOD(1)', '=ROUND(TRUE(),0)', '=ROUND(Z99,2)'])).toEqual([
    '#DIV/0!',
    '#N/A',
    1,
    0,
  ]);
});

test('no odd argument stops the engine', () => {
  const names = ['ROUND', 'ROUNDUP', 'ROUNDDOWN', 'TRUNC', 'MOD', 'CEILING', 'FLOOR', 'MROUND'];
  const values = [
    '1E308',
    '-1E308',
    '1E-308',
    '0',
    '-0',
    '400',
    '-400',
    '"1.5"',
    'TRUE()',
    'A1:A2',
    '1/0',
    '',
  ];
  const formulas = names.flatMap((name) =>
    values.flatMap((first) => values.map((second) => `=${name}(${first},${second})`)),
  );
  const results = valuesOf(['1', '2', ...formulas]);
  expect(results).toHaveLength(formulas.length + 2);
  for (const result of results) {
    expect(typeof result === 'number' ? Number.isFinite(result) : typeof result === 'string').toBe(true);
  }
});
