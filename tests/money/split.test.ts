import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { splitCoins } from '../../engine/money/split.ts';

describe('shares by largest remainder', () => {
  // Electowiki, "Hamilton method" (oldid 9372): seats of fifteen states in 1790, populations as printed there.
  it('gives fifteen states their 60 seats of 1790', () => {
    const populations = [630_560, 475_327, 432_879, 353_523, 331_589, 278_514, 236_841, 206_236].concat([
      179_570, 141_822, 85_533, 70_835, 68_705, 68_446, 55_540,
    ]);
    expect(splitCoins(60, populations)).toEqual([11, 8, 7, 6, 6, 5, 4, 3, 3, 2, 1, 1, 1, 1, 1]);
  });

  it.each([
    [13, [2.67, 6.92, 4.17], [2, 7, 4]], // a worked answer, source not kept; quotas scaled, as their sum is not quite 13
    [7, [50, 30, 20], [4, 2, 1]], // inputs: infinitelexicon.com/largestremainder; shares worked out by hand
    [10_000, [1, 1, 1], [3334, 3333, 3333]],
    [5, [3, 7], [2, 3]], // 1.5 and 3.5: of equal remainders the earlier one gets the coin
    [-5, [3, 7], [-2, -3]],
    [0, [3, 7], [0, 0]],
    [1, [0, 1], [0, 1]],
    [-1, [0, 1], [0, -1]],
    [4, Array(12).fill(1), [...Array(4).fill(1), ...Array(8).fill(0)]],
  ])('%i by %j is %j', (total, weights, shares) => {
    expect(splitCoins(total, weights)).toEqual(shares);
  });

  it('adds up exactly, each share the whole coins below or above its quota, and more weight never gets less', () => {
    // The quotas below are reckoned in doubles, whose smallest numbers have few digits.
    const weight = fc.double({ min: 0, max: 1e6, noNaN: true }).map((each) => (each < 1e-9 ? 0 : each));
    fc.assert(
      fc.property(
        fc.integer({ min: -1e9, max: 1e9 }),
        fc.array(weight, { minLength: 1, maxLength: 20 }).filter((all) => all.some((each) => each > 0)),
        (total, weights) => {
          const shares = splitCoins(total, weights);
          expect(shares.reduce((sum, each) => sum + each, 0)).toBe(total);
          const sum = weights.reduce((so, each) => so + each, 0);
          shares.forEach((share, at) => {
            const quota = (Math.abs(total) * (weights[at] ?? 0)) / sum;
            expect(Math.abs(Math.abs(share) - quota)).toBeLessThan(1 + 1e-3);
          });
          for (const [at, one] of weights.entries())
            for (const [to, other] of weights.entries())
              if (one > other)
                expect(Math.abs(shares[at] ?? 0)).toBeGreaterThanOrEqual(Math.abs(shares[to] ?? 0));
        },
      ),
    );
  });

  it.each([
    [1, [0, 0]],
    [1, []],
    [1, [-1, 2]],
    [0.5, [1]],
  ])('refuses %d by %j', (total, weights) => {
    expect(() => splitCoins(total, weights)).toThrow();
  });
});
