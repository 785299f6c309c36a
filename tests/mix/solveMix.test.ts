import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { impossible } from '../../engine/mix/impossible.ts';
import type { MixItem, MixLimit, MixTask } from '../../engine/mix/mixTask.ts';
import { solveMix, solveWholeMix } from '../../engine/mix/solveMix.ts';
import { verifyMix } from '../../engine/mix/verifyMix.ts';
import { imperial } from '../support/settings.ts';
import { solver } from '../support/solverForTests.ts';

interface Given {
  readonly contribution: number;
  readonly hours: number;
  readonly clasps: number;
  readonly atLeast: number;
  readonly room: number;
}

function itemOf({ contribution, hours, atLeast, room }: Given, at: number): MixItem {
  return {
    product: `product ${at}`,
    channel: 'shop',
    contributionEach: contribution,
    hoursEach: hours,
    expected: null,
    atLeast,
    atMost: atLeast + room,
    place: { file: 'sales_mix.csv', row: at + 2 },
  };
}

function taskOf(given: readonly Given[], hours: number, clasps?: number): MixTask {
  const limit = (kind: MixLimit['kind'], available: number, takenByEach: number[]): MixLimit => ({
    kind,
    name: kind === 'material' ? 'clasp' : 'bench hours',
    unit: kind === 'material' ? 'pieces' : 'h',
    available,
    takenByEach,
  });
  return {
    items: given.map(itemOf),
    limits: [
      limit(
        'bench hours',
        hours,
        given.map((each) => each.hours),
      ),
      ...(clasps === undefined
        ? []
        : [
            limit(
              'material',
              clasps,
              given.map((each) => each.clasps),
            ),
          ]),
    ],
  };
}

/** With one limit: promises first, then what contributes most for an hour. */
function greedy({ items, limits: [limit] }: MixTask): number {
  const taken = (at: number): number => limit?.takenByEach[at] ?? 0;
  let left = (limit?.available ?? 0) - items.reduce((sum, { atLeast }, at) => sum + atLeast * taken(at), 0);
  let sum = items.reduce((all, { atLeast, contributionEach }) => all + atLeast * contributionEach, 0);
  const order = items
    .map((item, at) => ({ item, hours: taken(at) }))
    .filter(({ item }) => item.contributionEach > 0)
    .sort((one, other) => other.item.contributionEach * one.hours - one.item.contributionEach * other.hours);
  for (const { item, hours } of order) {
    const more = Math.min(item.atMost - item.atLeast, left / hours);
    left -= more * hours;
    sum += more * item.contributionEach;
  }
  return sum;
}

/** Every whole mix there is, tried. */
function bestOfAll({ items, limits }: MixTask): number {
  const tried = (at: number, left: readonly number[]): number => {
    const item = items[at];
    if (item === undefined) return 0;
    let best = Number.NEGATIVE_INFINITY;
    for (let made = item.atLeast; made <= item.atMost; made += 1) {
      const rest = left.map((each, row) => each - made * (limits[row]?.takenByEach[at] ?? 0));
      if (rest.some((each) => each < -1e-9)) break;
      best = Math.max(best, made * item.contributionEach + tried(at + 1, rest));
    }
    return best;
  };
  return tried(
    0,
    limits.map(({ available }) => available),
  );
}

const given = (most: number): fc.Arbitrary<Given> =>
  fc.record({
    contribution: fc.integer({ min: -300, max: 3000 }).map((coins) => coins / 100),
    hours: fc.integer({ min: 1, max: 120 }).map((minutes) => minutes / 60),
    clasps: fc.integer({ min: 0, max: 3 }),
    atLeast: fc.integer({ min: 0, max: 2 }),
    room: fc.integer({ min: 0, max: most }),
  });

const promisedHours = (rows: readonly Given[]): number =>
  rows.reduce((sum, each) => sum + each.atLeast * each.hours, 0);
const promisedClasps = (rows: readonly Given[]): number =>
  rows.reduce((sum, each) => sum + each.atLeast * each.clasps, 0);

describe('the best mix', () => {
  it('is what contributes most for an hour first, where hours are the only limit', () => {
    fc.assert(
      fc.property(
        fc.array(given(40), { minLength: 1, maxLength: 12 }),
        fc.double({ min: 0, max: 60, noNaN: true }),
        (rows, more) => {
          const task = taskOf(rows, promisedHours(rows) + more);
          expect(impossible(task, imperial)).toEqual([]);
          const found = solveMix(task, solver).contribution;
          const other = greedy(task);
          expect(Math.abs(found - other)).toBeLessThan(1e-5 * Math.max(1, Math.abs(other)));
        },
      ),
      { numRuns: 150 },
    );
  });

  it('in whole pieces is the best of all that can be tried, and no better than in fractions', () => {
    fc.assert(
      fc.property(
        fc.array(given(4), { minLength: 1, maxLength: 4 }),
        fc.integer({ min: 0, max: 480 }),
        fc.integer({ min: 0, max: 12 }),
        (rows, minutes, clasps) => {
          const task = taskOf(rows, promisedHours(rows) + minutes / 60, promisedClasps(rows) + clasps);
          const fractions = solveMix(task, solver).contribution;
          const whole = solveWholeMix(task, solver, fractions, 0.01);
          const best = bestOfAll(task);
          expect(whole?.contribution).toBeLessThanOrEqual(fractions + 1e-6);
          // Whole mixes are told apart by a coin.
          expect(Math.abs((whole?.contribution ?? 0) - best)).toBeLessThan(0.01 + 1e-9);
        },
      ),
      { numRuns: 150 },
    );
  });

  it('values an hour at what a little more of it brings', () => {
    fc.assert(
      fc.property(
        fc.array(given(40), { minLength: 1, maxLength: 8 }),
        fc.double({ min: 1, max: 30, noNaN: true }),
        (rows, more) => {
          const hours = promisedHours(rows) + more;
          const [less, at, plus] = [hours - 0.01, hours, hours + 0.01].map((each) =>
            solveMix(taskOf(rows, each), solver),
          );
          const worth = at?.worth[0] ?? 0;
          // Where the best changes just there, the worth lies between that of the hour before and that of the next.
          expect(worth * 0.01).toBeLessThanOrEqual(
            (at?.contribution ?? 0) - (less?.contribution ?? 0) + 1e-5,
          );
          expect(worth * 0.01).toBeGreaterThanOrEqual(
            (plus?.contribution ?? 0) - (at?.contribution ?? 0) - 1e-5,
          );
        },
      ),
      { numRuns: 60 },
    );
  });
});

describe('the proof of a mix', () => {
  const task = taskOf(
    [
      { contribution: 185, hours: 1, clasps: 0, atLeast: 0, room: 60 },
      { contribution: 55, hours: 0.5, clasps: 0, atLeast: 0, room: 48 },
    ],
    70,
  );
  const right = solveMix(task, solver);

  it('passes the best one', () => {
    expect(right.pieces).toEqual([60, 20]);
    expect(() => verifyMix(task, right)).not.toThrow();
  });

  it.each([
    ['too much of the hours', { pieces: [60, 21] }],
    ['more than is bought', { pieces: [61, 18] }],
    ['a poorer mix', { pieces: [50, 40], contribution: 50 * 185 + 40 * 55 }],
    ['a wrong sum', { contribution: right.contribution + 1 }],
    ['an hour worth less than it brings', { worth: [100] }],
    ['an hour worth less than nothing', { worth: [-1] }],
  ])('throws at %s', (_, wrong) => {
    expect(() => verifyMix(task, { ...right, ...wrong })).toThrow('does not hold');
  });
});

describe('what makes a mix impossible', () => {
  const row: Given = { contribution: 5, hours: 1, clasps: 2, atLeast: 8, room: 10 };

  it('is told for hours and for material, with how much is missing and where it is promised', () => {
    const problems = impossible(taskOf([row], 6, 10), imperial);
    expect(problems.map(({ where }) => where)).toEqual([
      { file: 'sales_mix.csv', row: 2, column: 'at_least' },
      { file: 'sales_mix.csv', row: 2, column: 'at_least' },
    ]);
    expect(problems[0]?.message).toContain('8 bench hours, and there are 6: 2 too few');
    expect(problems[1]?.message).toContain('16 clasp, and there are 10: 6 too few');
  });

  it('is told of what nothing limits', () => {
    const endless = taskOf([{ ...row, hours: 0, room: Number.POSITIVE_INFINITY }], 6);
    expect(impossible(endless, imperial)[0]?.message).toContain('may be sold without limit');
  });

  it('is not said of a promise that fits but for the dust of decimals', () => {
    const tenths = [1, 2].map(() => ({ ...row, hours: 0.1, atLeast: 3, room: 0 }));
    expect(impossible(taskOf(tenths, 0.6), imperial)).toEqual([]);
  });
});
