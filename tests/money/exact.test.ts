import { describe, expect, it } from 'vitest';
import { coinsOf, exact, exactOf, moneyOf, nothing, wholeCoins } from '../../engine/money/exact.ts';

describe('exact amounts', () => {
  it('takes a double for the decimal that it stands for', () => {
    expect(exactOf(0.1).plus(exactOf(0.2)).eq(0.3)).toBe(true);
    expect(exactOf(12.000000000000002).eq(12)).toBe(true);
    // Twelve digits are the maker's, a thirteenth is not.
    expect(exactOf(1.00000000001).eq('1.00000000001')).toBe(true);
    expect(exactOf(1.000000000004).eq(1)).toBe(true);
    expect(nothing.eq(0)).toBe(true);
  });

  // General Decimal Arithmetic test cases (M. Cowlishaw), quantize.decTest: 1.2355 to .01 is 1.24, 9.9999 is 10.00.
  it.each([
    ['1.2345', 123],
    ['1.2355', 124],
    ['9.9999', 1000],
    ['1.005', 101],
    ['-1.005', -101],
    ['-0.001', 0],
  ])('fixes %s to coins half away from zero', (amount, coins) => {
    expect(Object.is(coinsOf(exact(amount), 2), coins)).toBe(true);
  });

  it('rounds a running sum so that whole numbers pass through', () => {
    for (const part of ['0.5', '-0.5', '0.25', '-0.75'])
      for (const whole of [-3, -1, 0, 1, 3])
        expect(wholeCoins(exact(part).plus(whole))).toBe(wholeCoins(exact(part)) + whole);
    expect(wholeCoins(exact(1).div(3).times(3))).toBe(1);
    expect(['0.49', '-0.51', '1.5', '-1.5'].map((each) => wholeCoins(exact(each)))).toEqual([0, -1, 2, -1]);
    for (const none of ['-0', '-0.5', '-0.2']) expect(Object.is(wholeCoins(exact(none)), 0)).toBe(true);
    expect(wholeCoins(exact('0.5').minus('1e-30'))).toBe(1);
  });

  it('gives money as the double that a sheet holds', () => {
    expect(moneyOf(1999, 2)).toBe(19.99);
    expect(moneyOf(1999, 0)).toBe(1999);
    expect(Object.is(moneyOf(-0, 2), 0)).toBe(true);
  });
});
