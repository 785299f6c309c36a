import { describe, expect, it } from 'vitest';
import { spareFor } from '../../engine/samples/spare.ts';

const many = Number.POSITIVE_INFINITY;

describe('spareFor', () => {
  it('cuts by the quantile of the prediction error: textbook mean + z s sqrt(1 + 1/n)', () => {
    const { extraRatio } = spareFor(
      { spreadRatio: 0.03, fitErrorRatio: 0.04, readingErrorRatio: 0, degrees: many },
      0.02,
    );
    expect(extraRatio).toBeCloseTo(2.0537489 * 0.05, 6);
  });

  it('takes more where few samples say what the spread is', () => {
    const spread = { spreadRatio: 0.03, fitErrorRatio: 0.015, readingErrorRatio: 0 };
    const [few, some, all] = [2, 5, many].map((degrees) => spareFor({ ...spread, degrees }, 0.02).extraRatio);
    expect(few).toBeGreaterThan(some ?? 0);
    expect(some).toBeGreaterThan(all ?? 0);
  });

  it('never takes less than the tape alone asks for', () => {
    const { extraRatio } = spareFor(
      { spreadRatio: 0, fitErrorRatio: 0, readingErrorRatio: 0.01, degrees: 3 },
      0.02,
    );
    expect(extraRatio).toBeCloseTo(0.020537489, 6);
  });

  it('expects the offcut that a sum over a normal distribution gives', () => {
    const error = 0.05;
    const spare = spareFor(
      { spreadRatio: error, fitErrorRatio: 0, readingErrorRatio: 0, degrees: many },
      0.1,
    );
    let sum = 0;
    const step = 0.0005;
    for (let z = -8; z <= 8; z += step) {
      const left = Math.max(0, spare.extraRatio - z * error);
      sum += (left * Math.exp((-z * z) / 2) * step) / Math.sqrt(2 * Math.PI);
    }
    expect(spare.expectedOffcutRatio).toBeCloseTo(sum, 6);
    // The worst case would leave all of the extra unused and more; on the average no more than a little over it.
    expect(spare.expectedOffcutRatio).toBeGreaterThan(spare.extraRatio);
    expect(spare.expectedOffcutRatio).toBeLessThan(1.1 * spare.extraRatio);
  });

  it('counts cords that ran short as lost, and made again until one is long enough', () => {
    const spare = spareFor({ spreadRatio: 0.02, fitErrorRatio: 0, readingErrorRatio: 0, degrees: many }, 0.2);
    // 0.2 + 0.04 + 0.008 ... = 0.25 cords lost for each good one.
    expect(spare.expectedLossRatio).toBeCloseTo(0.25 * (1 + spare.extraRatio), 12);
  });
});
