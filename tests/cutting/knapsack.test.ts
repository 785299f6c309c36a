import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { commonStep, Knapsack } from '../../engine/cutting/knapsack.ts';
import type { CutTask } from '../../engine/cutting/task.ts';

/** The most valuable cut, by trying every one. */
function mostWorthByTrying(task: CutTask, values: readonly number[], room: number, from = 0): number {
  const piece = task.pieces[from];
  if (piece === undefined) return 0;
  let most = 0;
  for (let count = 0; count <= piece.count && count * (piece.lengthUm + task.kerfUm) <= room; count += 1) {
    const rest = mostWorthByTrying(task, values, room - count * (piece.lengthUm + task.kerfUm), from + 1);
    most = Math.max(most, count * (values[from] ?? 0) + rest);
  }
  return most;
}

function taskOf(
  pieces: readonly { lengthUm: number; count: number }[],
  roomUm: number,
  kerfUm: number,
): CutTask {
  return {
    pieces: pieces.map((piece) => ({ ...piece, label: '' })),
    stocks: [{ lengthUm: roomUm, limit: null, tiers: [{ fromPacks: 1, costEach: 1 }], label: '' }],
    kerfUm,
  };
}

const pieces = (most: number) =>
  fc.array(
    fc.record({ lengthUm: fc.integer({ min: 1, max: most }), count: fc.integer({ min: 0, max: 5 }) }),
    {
      minLength: 1,
      maxLength: 4,
    },
  );
const values = fc.array(fc.integer({ min: 0, max: 50 }), { minLength: 4, maxLength: 4 });

describe('Knapsack', () => {
  it('finds the most valuable cut', () => {
    fc.assert(
      fc.property(
        pieces(40),
        values,
        fc.integer({ min: 1, max: 100 }),
        fc.integer({ min: 0, max: 2 }),
        (list, worth, room, kerf) => {
          const task = taskOf(list, room, kerf);
          const own = worth.slice(0, list.length);
          const { counts, mostWorth } = new Knapsack(task).price(own);
          const most = mostWorthByTrying(task, own, room + kerf);
          expect(mostWorth).toEqual([most]);
          expect(counts[0]?.reduce((sum, count, at) => sum + count * (own[at] ?? 0), 0)).toBe(most);
        },
      ),
      { seed: 5 },
    );
  });

  it('brackets it where lengths are too fine for an exact table', () => {
    fc.assert(
      fc.property(
        pieces(400_000),
        values,
        fc.integer({ min: 200_001, max: 1_000_000 }),
        (list, worth, room) => {
          const task = taskOf(list, room, 0);
          const own = worth.slice(0, list.length);
          const { counts, mostWorth } = new Knapsack(task).price(own);
          const most = mostWorthByTrying(task, own, room);
          const found = counts[0]?.reduce((sum, count, at) => sum + count * (own[at] ?? 0), 0) ?? 0;
          const taken =
            counts[0]?.reduce((sum, count, at) => sum + count * (list[at]?.lengthUm ?? 0), 0) ?? 0;
          expect(taken).toBeLessThanOrEqual(room);
          expect(found).toBeLessThanOrEqual(most);
          expect(mostWorth[0]).toBeGreaterThanOrEqual(most);
        },
      ),
      { seed: 6, numRuns: 40 },
    );
  });

  it('reckons in the greatest common step', () => {
    expect([1_244_600, 25_400, 50_800].reduce(commonStep, 0)).toBe(25_400);
    expect(commonStep(0, 7)).toBe(7);
  });
});
