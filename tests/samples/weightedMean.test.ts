import { describe, expect, it } from 'vitest';
import { weightedMean } from '../../engine/samples/weightedMean.ts';

describe('weightedMean', () => {
  it('with readings of no error is the textbook mean with s / sqrt(n)', () => {
    // 2, 4, 4, 4, 5, 5, 7, 9: mean 5, sum of squares 32 (a common textbook example).
    const mean = weightedMean([2, 4, 4, 4, 5, 5, 7, 9].map((value) => ({ value, error: 0 })));
    expect(mean.value).toBeCloseTo(5, 9);
    expect(mean.spread).toBeCloseTo(Math.sqrt(32 / 7), 6);
    expect(mean.standardError).toBeCloseTo(Math.sqrt(32 / 7 / 8), 6);
  });

  it('weights by the reading errors alone where they explain the differences', () => {
    // Textbook: weights 1 and 1/4 give (10 + 11/4) / (5/4) = 10.2 and sqrt(4/5).
    const mean = weightedMean([
      { value: 10, error: 1 },
      { value: 11, error: 2 },
    ]);
    expect(mean.spread).toBe(0);
    expect(mean.value).toBeCloseTo(10.2, 12);
    expect(mean.standardError).toBeCloseTo(Math.sqrt(0.8), 12);
    expect(mean.residualError).toBeLessThan(mean.standardError);
  });

  it('finds the spread at which the weighted squares are n - 1, as a plain search over spreads does', () => {
    const readings = [
      { value: 1.1, error: 0.02 },
      { value: 1.25, error: 0.05 },
      { value: 1.18, error: 0.01 },
      { value: 1.31, error: 0.04 },
    ];
    let best = { gap: Number.POSITIVE_INFINITY, spread: 0, value: 0, error: 0 };
    for (let spread = 0; spread < 0.3; spread += 0.00001) {
      const weights = readings.map(({ error }) => 1 / (spread * spread + error * error));
      const sum = weights.reduce((total, each) => total + each);
      const value = readings.reduce((total, each, at) => total + each.value * (weights[at] ?? 0), 0) / sum;
      const squares = readings.reduce(
        (total, each, at) => total + (weights[at] ?? 0) * (each.value - value) ** 2,
        0,
      );
      const gap = Math.abs(squares - 3);
      if (gap < best.gap) best = { gap, spread, value, error: Math.sqrt(1 / sum) };
    }
    const mean = weightedMean(readings);
    expect(mean.spread).toBeCloseTo(best.spread, 4);
    expect(mean.value).toBeCloseTo(best.value, 5);
    expect(mean.standardError).toBeCloseTo(best.error, 5);
  });

  it('takes one reading with a spread that is given', () => {
    const mean = weightedMean([{ value: 5, error: 0.3 }], 0.4);
    expect(mean.value).toBe(5);
    expect(mean.standardError).toBeCloseTo(0.5, 12);
  });
});
