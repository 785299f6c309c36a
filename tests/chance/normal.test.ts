import { describe, expect, it } from 'vitest';
import { normalDensity, normalQuantile, normalTail } from '../../engine/chance/normal.ts';

describe('the normal distribution', () => {
  // Printed tables of the upper tail (from memory; any textbook of statistics has them).
  it.each([
    [0, 0.5, 12],
    [1, 0.158655, 6],
    [1.645, 0.05, 4],
    [1.96, 0.025, 5],
    [2.326, 0.01, 4],
    [3.0902, 0.001, 6],
  ])('has beyond %d a tail of %d', (x, tail, digits) => {
    expect(normalTail(x)).toBeCloseTo(tail, digits);
    expect(normalTail(-x)).toBeCloseTo(1 - tail, digits);
  });

  // Simpson's rule on the density, from x to far beyond anything.
  it.each([0.3, 1, 2, 2.9, 3, 3.1, 4, 6])('has beyond %d the tail that adding up its density gives', (x) => {
    const steps = 20_000;
    const step = 12 / steps;
    let sum = 0;
    for (let at = 0; at <= steps; at += 1) {
      const weight = at === 0 || at === steps ? 1 : at % 2 === 1 ? 4 : 2;
      sum += weight * normalDensity(x + at * step);
    }
    expect(normalTail(x) / ((sum * step) / 3)).toBeCloseTo(1, 11);
  });

  it.each([1e-12, 0.001, 0.02424, 0.02426, 0.3, 0.5, 0.8, 0.9999])(
    'stays under its quantile with a chance of %d',
    (chance) => {
      expect(normalTail(-normalQuantile(chance)) / chance).toBeCloseTo(1, 12);
    },
  );

  it.each([0, 1, -0.1, Number.NaN])('has no quantile for a chance of %d', (chance) => {
    expect(() => normalQuantile(chance)).toThrow(RangeError);
  });
});
