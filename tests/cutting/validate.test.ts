import { describe, expect, it } from 'vitest';
import { cutStock } from '../../engine/cutting/cutStock.ts';
import type { BinGroup, CutPlan, CutTask } from '../../engine/cutting/task.ts';
import { validate } from '../../engine/cutting/validate.ts';
import { solver } from '../support/solverForTests.ts';

const task: CutTask = {
  pieces: [
    { lengthUm: 40, count: 5, label: 'long' },
    { lengthUm: 25, count: 4, label: 'short' },
  ],
  stocks: [
    { lengthUm: 90, limit: 1, tiers: [{ fromPacks: 1, costEach: 0 }], label: 'offcut' },
    { lengthUm: 130, limit: null, tiers: [{ fromPacks: 1, costEach: 3 }], label: 'spool' },
  ],
  kerfUm: 2,
};

const { plan } = await cutStock(task, solver);

function withFirst(change: (group: BinGroup) => BinGroup): CutPlan {
  const [first, ...rest] = plan.groups;
  if (first === undefined) throw new Error('The plan is empty');
  return { ...plan, groups: [change(first), ...rest] };
}

describe('validate', () => {
  it('passes the plan as it was made', () => {
    expect(validate(task, plan)).toEqual([]);
    expect(plan.uncut).toEqual([0, 0]);
  });

  it.each<[string, CutPlan]>([
    [
      'a piece is cut once more',
      withFirst((group) => ({ ...group, counts: group.counts.map((count) => count + 1) })),
    ],
    ['a piece is missing', withFirst((group) => ({ ...group, counts: [0, ...group.counts.slice(1)] }))],
    ['a bin is cut once more', withFirst((group) => ({ ...group, times: group.times + 1 }))],
    ['a bin is missing', { ...plan, groups: plan.groups.slice(1) }],
    ['the stock is another', withFirst((group) => ({ ...group, stock: 1 - group.stock }))],
    ['there is no such stock', withFirst((group) => ({ ...group, stock: 7 }))],
    ['half a bin is cut', withFirst((group) => ({ ...group, times: 0.5 }))],
    ['a count is negative', withFirst((group) => ({ ...group, counts: [-1, ...group.counts.slice(1)] }))],
    [
      'nothing is cut from a stock',
      { ...plan, groups: [...plan.groups, { stock: 1, counts: [0, 0], times: 1 }] },
    ],
    ['a piece is called uncut that is cut', { ...plan, uncut: [1, 0] }],
    ['the cost is another', { ...plan, cost: plan.cost + 1 }],
  ])('rejects a plan in which %s', (_, tampered) => {
    expect(validate(task, tampered).length).toBeGreaterThan(0);
  });

  it('sees a stock overrun by the width of one cut', () => {
    const exact: CutTask = {
      pieces: [{ lengthUm: 50, count: 2, label: 'half' }],
      stocks: [{ lengthUm: 101, limit: 1, tiers: [{ fromPacks: 1, costEach: 1 }], label: 'stock' }],
      kerfUm: 1,
    };
    const both: CutPlan = { groups: [{ stock: 0, counts: [2], times: 1 }], uncut: [0], cost: 1 };
    expect(validate(exact, both)).toEqual([]);
    expect(validate({ ...exact, kerfUm: 2 }, both)).toEqual(['stock is overrun by 1 um']);
  });
});
