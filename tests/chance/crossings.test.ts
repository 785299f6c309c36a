import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { crossingsOf } from '../../engine/chance/crossings.ts';

const grid = (from: number, to: number, steps = 200): number[] =>
  Array.from({ length: steps + 1 }, (_, step) => from + ((to - from) * step) / steps);

describe('crossings', () => {
  it('finds every root of a curve', () => {
    fc.assert(
      fc.property(
        fc.uniqueArray(fc.integer({ min: -9, max: 9 }), { minLength: 1, maxLength: 4 }),
        fc.double({ min: 0.01, max: 0.49, noNaN: true }),
        (whole, beside) => {
          const roots = whole.map((each) => each + beside).sort((one, other) => one - other);
          const f = (x: number): number => roots.reduce((product, each) => product * (x - each), 1);
          const found = crossingsOf(f, grid(-10, 10), 1).crossings;
          expect(found.map(({ how }) => how)).toEqual(roots.map(() => 'root'));
          for (const [at, each] of found.entries())
            if (each.how === 'root') expect(each.at).toBeCloseTo(roots[at] ?? Number.NaN, 6);
        },
      ),
    );
  });

  it('tells a step that jumps over zero, with both of its sides', () => {
    const [found] = crossingsOf((x) => Math.ceil(x) - 2.5, grid(0, 10), 1).crossings;
    expect(found).toMatchObject({ how: 'step', valueBefore: -0.5, valueAfter: 0.5 });
    if (found?.how !== 'step') throw new Error('a step was expected');
    expect(found.before).toBe(2);
    expect(found.after).toBeGreaterThan(2);
    expect(found.after - found.before).toBeLessThan(1e-12);
  });

  it('tells a stretch where zero holds', () => {
    const [found, more] = crossingsOf((x) => Math.ceil(x) - 3, grid(0.05, 9.7, 37), 1).crossings;
    expect(more).toBeUndefined();
    if (found?.how !== 'plateau') throw new Error('a plateau was expected');
    expect(found.from).toBeCloseTo(2, 9);
    expect(found.to).toBe(3);
  });

  it('tells one root where the grid meets it', () => {
    expect(crossingsOf((x) => x - 5, grid(0, 10), 1).crossings).toEqual([{ how: 'root', at: 5, value: 0 }]);
  });

  it('tells a root at either end of the grid, and a stretch of zero that reaches it', () => {
    expect(crossingsOf((x) => x, grid(0, 10), 1).crossings).toEqual([{ how: 'root', at: 0, value: 0 }]);
    expect(crossingsOf((x) => x - 10, grid(0, 10), 1).crossings).toEqual([{ how: 'root', at: 10, value: 0 }]);
    expect(crossingsOf(() => 0, grid(0, 10), 1).crossings).toEqual([{ how: 'plateau', from: 0, to: 10 }]);
  });

  it('takes the nearer of two neighbouring doubles where a steep function is zero between them', () => {
    for (const square of [2, 3, 5, 6, 7, 8, 10, 11]) {
      const f = (x: number): number => 1e5 * (x * x - square);
      const [found, more] = crossingsOf(f, grid(1, 4), 1).crossings;
      expect(more).toBeUndefined();
      if (found?.how !== 'root') throw new Error('a root was expected');
      expect(found.at).toBeCloseTo(Math.sqrt(square), 15);
      expect(found.value).toBe(f(found.at));
    }
  });

  it('calls nothing a crossing where the function has no value between two signs', () => {
    const torn = (x: number): number => (x < 4.99 ? -1 : x > 5.01 ? 1 : Number.NaN);
    expect(crossingsOf(torn, [0, 2, 4, 6, 8], 1).crossings).toEqual([]);
  });

  it('says how far a function reaches that never crosses, and keeps out of where it has no value', () => {
    const scan = crossingsOf((x) => (x < 2 ? Number.NaN : x * x + 1), grid(0, 3), 1);
    expect(scan.crossings).toEqual([]);
    expect(scan.least).toEqual({ at: 2.01, value: 2.01 ** 2 + 1 });
    expect(scan.greatest).toEqual({ at: 3, value: 10 });
    expect(crossingsOf(() => Number.NaN, grid(0, 3), 1).least).toBeUndefined();
  });
});
