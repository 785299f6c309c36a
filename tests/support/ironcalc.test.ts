import { expect, test } from 'vitest';
import { ironCalcValues } from './ironcalc.ts';

test('values keep their types, formulas reach across sheets, and text stays text', async () => {
  const values = await ironCalcValues(
    new Map([
      ['Costs', [[1, '=A1+1', "='Price list'!A1*2"], [], [null, true, '=1=2', '=1/0', '=NA()']]],
      ['Price list', [[21, '2', '2024-01-03', "'quoted", '=""', '="12"', 'TRUE']]],
    ]),
  );
  expect(values.get('Costs')).toEqual([
    [1, 2, 42],
    [],
    [null, true, false, { error: '#DIV/0!' }, { error: '#N/A' }],
  ]);
  expect(values.get('Price list')).toEqual([[21, '2', '2024-01-03', "'quoted", '', '12', 'TRUE']]);
});

test('numbers come back to 15 significant digits, large, small and negative', async () => {
  const numbers = [
    0,
    -1,
    1 / 3,
    0.1 + 0.2,
    123456789.12345678,
    1e300 / 3,
    (2 / 3) * 1e-10,
    1e21,
    999999.995,
    -0.07,
  ];
  const values = await ironCalcValues(new Map([['N', numbers.map((x, row) => [x, `=A${row + 1}*1`])]]));
  numbers.forEach((x, row) => {
    const [plain, computed] = values.get('N')?.[row] ?? [];
    for (const value of [plain, computed]) {
      expect(Math.abs(Number(value) - x)).toBeLessThanOrEqual(Math.abs(x) * 5e-15);
    }
  });
});
