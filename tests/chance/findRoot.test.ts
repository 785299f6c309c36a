import { describe, expect, it } from 'vitest';
import { findRoot } from '../../engine/chance/findRoot.ts';

describe('findRoot', () => {
  it('finds where a rising and a falling function are zero', () => {
    expect(findRoot((x) => x * x - 2, 0, 2)).toBeCloseTo(Math.SQRT2, 14);
    expect(findRoot((x) => 3 - x, 0, 10)).toBeCloseTo(3, 14);
  });

  it('takes an end that is the root itself', () => {
    expect(findRoot((x) => x, 0, 1)).toBe(0);
    expect(findRoot((x) => x - 1, 0, 1)).toBe(1);
  });

  it('says so where there is none', () => {
    expect(findRoot((x) => x + 5, 0, 1)).toBeUndefined();
    expect(findRoot(() => Number.NaN, 0, 1)).toBeUndefined();
  });
});
