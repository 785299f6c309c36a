import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { correlation, meanAndSpread, percentileOf, ranksOf } from '../../engine/chance/statistics.ts';

const draws = (...values: number[]): Float64Array => Float64Array.from(values);

describe('what is told of draws', () => {
  it('takes the mean and the spread of n - 1, whatever the size of the figures', () => {
    const small = [3, 5, 5, 9, 13];
    // 35 / 5; squares 16 + 4 + 4 + 4 + 36 over 4.
    expect(meanAndSpread(draws(...small))).toEqual({ mean: 7, spread: 4 });
    expect(meanAndSpread(draws(...small.map((each) => 1e12 + each)))).toEqual({ mean: 1e12 + 7, spread: 4 });
  });

  it('one draw spreads nowhere, and of none there is no mean', () => {
    expect(meanAndSpread(draws(4))).toEqual({ mean: 4, spread: 0 });
    expect(meanAndSpread(draws()).mean).toBeNaN();
    expect(percentileOf(draws(), 0.5)).toBeNaN();
  });

  it('a percentile lies between two neighbours by its distance', () => {
    const sorted = draws(10, 20, 40, 80, 160);
    expect([0, 0.25, 0.5, 1].map((share) => percentileOf(sorted, share))).toEqual([10, 20, 40, 160]);
    expect(percentileOf(sorted, 0.6)).toBeCloseTo(40 + 0.4 * 40, 12);
    expect(percentileOf(draws(7), 0.9)).toBe(7);
  });

  it('equal values share the middle of their places', () => {
    expect([...ranksOf(draws(5, 1, 5, 0, 5))]).toEqual([3, 1, 3, 0, 3]);
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 0, max: 9 }), { maxLength: 30 }), (values) => {
        const ranks = ranksOf(draws(...values));
        const under = (value: number) => values.filter((each) => each < value).length;
        const alike = (value: number) => values.filter((each) => each === value).length;
        for (const [at, value] of values.entries())
          expect(ranks[at]).toBe(under(value) + (alike(value) - 1) / 2);
      }),
    );
  });
});

describe('correlation', () => {
  it('is 1 along a line, -1 against one, and known for a small case', () => {
    const one = draws(1, 2, 3, 4);
    expect(correlation(one, draws(3, 5, 7, 9))).toBeCloseTo(1, 12);
    expect(correlation(one, draws(9, 7, 5, 3))).toBeCloseTo(-1, 12);
    // Products of what each is off its mean: 2.25 - 0.25 + 0.75 + 0.75 over the root of 5 times 5.
    expect(correlation(draws(1, 2, 3, 4), draws(1, 3, 2, 4))).toBeCloseTo(0.8, 12);
  });

  it('is none where one of the two stands still', () => {
    expect(correlation(draws(1, 2, 3), draws(6, 6, 6))).toBe(0);
    expect(correlation(draws(6, 6, 6), draws(1, 2, 3))).toBe(0);
  });
});
