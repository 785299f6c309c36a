import { describe, expect, it } from 'vitest';
import { deletedResiduals, outlierLimit } from '../../engine/samples/outliers.ts';

describe('deletedResiduals', () => {
  it('with readings of no error are those of the textbook: t = d / (s sqrt(1 + 1/m)) over the m others', () => {
    const values = [2, 4, 4, 5, 9];
    // Without 9: mean 3.75, s^2 = 4.75 / 3, m = 4.
    const expected = (9 - 3.75) / Math.sqrt((4.75 / 3) * (1 + 1 / 4));
    expect(deletedResiduals(values.map((value) => ({ value, error: 0 })))[4]).toBeCloseTo(expected, 4);
  });

  it('say nothing of two that differ', () => {
    expect(
      deletedResiduals([
        { value: 1, error: 0 },
        { value: 9, error: 0 },
      ]),
    ).toEqual([]);
    expect(outlierLimit(2)).toBe(Number.POSITIVE_INFINITY);
  });

  it('are held to a limit that grows where few others speak', () => {
    expect(outlierLimit(3)).toBeGreaterThan(outlierLimit(5));
    // Five samples: t of 3 degrees at 1 - 0.05 / 10 = 0.995, 5.841 in printed tables (from memory).
    expect(outlierLimit(5)).toBeCloseTo(5.841, 3);
  });
});
