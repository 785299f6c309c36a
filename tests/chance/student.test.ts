import { describe, expect, it } from 'vitest';
import { studentChance, studentExceeded, studentQuantile } from '../../engine/chance/student.ts';

describe("Student's t", () => {
  // Printed tables of t, three decimals (from memory; any textbook of statistics has them).
  it.each([
    [0.975, 1, 12.706],
    [0.975, 2, 4.303],
    [0.975, 4, 2.776],
    [0.975, 9, 2.262],
    [0.975, 30, 2.042],
    [0.95, 5, 2.015],
    [0.995, 3, 5.841],
    [0.975, Number.POSITIVE_INFINITY, 1.96],
    [0.98, Number.POSITIVE_INFINITY, 2.054],
  ])('stays with a chance of %d, %d degrees, under %d', (chance, degrees, table) => {
    expect(studentQuantile(chance, degrees)).toBeCloseTo(table, 3);
    expect(studentQuantile(1 - chance, degrees)).toBeCloseTo(-table, 3);
  });

  it('with one degree is the Cauchy distribution, whose integral is an arc tangent', () => {
    for (const x of [-20, -1, 0, 0.3, 5]) {
      expect(studentChance(x, 1)).toBeCloseTo(0.5 + Math.atan(x) / Math.PI, 12);
    }
  });

  it('with two degrees has a closed form too', () => {
    for (const x of [-3, 0.5, 8]) {
      expect(studentChance(x, 2)).toBeCloseTo(0.5 + x / (2 * Math.sqrt(2 + x * x)), 12);
    }
  });

  it('keeps the digits of a small chance: one degree again, whose tail turns round into a tangent', () => {
    for (const chance of [0.25, 0.02, 1e-4, 1e-7]) {
      expect(studentExceeded(chance, 1) * Math.tan(Math.PI * chance)).toBeCloseTo(1, 12);
    }
  });

  it('goes over into the normal distribution', () => {
    const normal = studentExceeded(0.02, Number.POSITIVE_INFINITY);
    expect(studentExceeded(0.02, 1_000_000)).toBe(normal);
    expect(studentExceeded(0.02, 999_999)).toBeCloseTo(normal, 5);
    expect(studentExceeded(0.02, 999_999)).toBeGreaterThan(normal);
  });

  it('leaves nothing beyond what a square can hold', () => {
    expect(studentChance(1e200, 3)).toBe(1);
    expect(studentChance(-1e200, 3)).toBe(0);
  });

  it('refuses a chance that no value has', () => {
    expect(() => studentQuantile(1, 3)).toThrow(RangeError);
    expect(() => studentQuantile(0.5, 0)).toThrow(RangeError);
  });
});
