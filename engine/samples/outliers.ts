import { studentQuantile } from '../chance/student.ts';
import { type Reading, weightedMean } from './weightedMean.ts';

/** Chance that a set of good samples has one of them named all the same. */
const falseAlarm = 0.05;

/**
 * How far each reading is from what all the others say, in standard deviations of that difference
 * (studentised deleted residuals): a reading that is far off cannot hide by widening the spread itself.
 *
 * @returns one number a reading; empty for fewer than three, as two that differ do not say which is wrong
 */
export function deletedResiduals(readings: readonly Reading[]): number[] {
  if (readings.length < 3) return [];
  return readings.map((reading, at) => {
    const others = weightedMean(readings.filter((_, index) => index !== at));
    const error = Math.hypot(others.spread, others.standardError, reading.error);
    return error > 0 ? (reading.value - others.value) / error : 0;
  });
}

/** Beyond this a deleted residual is an outlier: Student's t with n - 2 degrees, shared out over n samples. */
export function outlierLimit(count: number): number {
  return count < 3 ? Number.POSITIVE_INFINITY : studentQuantile(1 - falseAlarm / (2 * count), count - 2);
}
