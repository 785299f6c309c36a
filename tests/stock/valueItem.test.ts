import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dayNumber } from '../../engine/book/measures/day.ts';
import { exact, nothing } from '../../engine/money/exact.ts';
import { inDayOrder, type Move, type MoveKind } from '../../engine/stock/move.ts';
import { type ValuingRule, valueItem } from '../../engine/stock/valueItem.ts';

const july = (day: number): number => dayNumber(2026, 7, day) ?? 0;

function move(day: number, what: MoveKind, quantity: number, more: Partial<Move> = {}): Move {
  return {
    day,
    item: 'thing',
    what,
    quantity: exact(quantity),
    origin: '',
    partner: '',
    place: { file: 't' },
    ...more,
  };
}

const methods = ['average', 'first in first out'] as const;
const timings = ['perpetual', 'periodic'] as const;
const rules: readonly ValuingRule[] = methods.flatMap((method) =>
  timings.map((timing) => ({ method, timing, periodMonths: 1 })),
);
const fifo: ValuingRule = { method: 'first in first out', timing: 'perpetual', periodMonths: 1 };
const average: ValuingRule = { ...fifo, method: 'average' };

const coins = (moves: readonly Move[], rule: ValuingRule): number[] =>
  valueItem(moves, exact(100), rule).moves.map(({ valueCoins }) => valueCoins);

describe('what one movement costs', () => {
  const bought = [
    move(july(1), 'opening', 10, { ownCoins: 1000 }),
    move(july(2), 'bought', 10, { ownCoins: 2000, origin: 'A' }),
  ];

  it('takes the oldest, or the average', () => {
    const moves = [...bought, move(july(3), 'used', -15)];
    expect(coins(moves, fifo)).toEqual([1000, 2000, -2000]);
    expect(coins(moves, average)).toEqual([1000, 2000, -2250]);
  });

  it('gives back to a supplier at what it came in for, whatever the method', () => {
    const moves = [...bought, move(july(3), 'returned to supplier', -4, { ownCoins: -700, origin: 'A' })];
    expect(coins(moves, fifo).at(-1)).toBe(-800);
    expect(coins(moves, average).at(-1)).toBe(-800);
    const unknown = [...bought, move(july(3), 'returned to supplier', -4, { ownCoins: -700 })];
    expect(coins(unknown, average).at(-1)).toBe(-700);
  });

  it('takes no more value back than there is, and all of it with the last piece', () => {
    const low = [
      move(july(1), 'bought', 10, { ownCoins: 10, origin: 'old' }),
      move(july(2), 'bought', 2, { ownCoins: 200, origin: 'A' }),
      move(july(3), 'used', -9),
    ];
    const back = move(july(4), 'returned to supplier', -2, { ownCoins: -200, origin: 'A' });
    expect(coins([...low, back], average)).toEqual([10, 200, -157, -53]);
    const all = { ...back, quantity: exact(-3) };
    expect(coins([...low, all], average).reduce((sum, each) => sum + each, 0)).toBe(0);
  });

  it('takes what a buyer returns back at the cost it was sold at, the last sale of the channel first', () => {
    const moves = [
      ...bought,
      move(july(3), 'sold', -10, { origin: 'stall' }),
      move(july(4), 'sold', -2, { origin: 'online' }),
      move(july(5), 'returned by buyer', 3, { origin: 'stall' }),
      move(july(6), 'returned by buyer', 1, { origin: 'online' }),
    ];
    expect(coins(moves, fifo)).toEqual([1000, 2000, -1000, -400, 300, 200]);
    // They are the oldest again.
    expect(coins([...moves, move(july(7), 'sold', -4)], fifo).at(-1)).toBe(-500);
  });

  it('takes what is found more at the newest cost, and what is missing by the method', () => {
    expect(coins([...bought, move(july(3), 'counted', 2)], fifo).at(-1)).toBe(400);
    expect(coins([...bought, move(july(3), 'counted', 2)], average).at(-1)).toBe(300);
    expect(coins([...bought, move(july(3), 'counted', -2)], fifo).at(-1)).toBe(-200);
  });

  it('writes down to the worth that is given, every layer in proportion', () => {
    const moves = [...bought, move(july(3), 'revalued', 0, { worthCoins: 1500 }), move(july(4), 'used', -10)];
    expect(coins(moves, fifo)).toEqual([1000, 2000, -1500, -500]);
  });
});

describe('more taken than there was', () => {
  const moves = [
    move(july(1), 'bought', 10, { ownCoins: 1000 }),
    move(july(2), 'used', -14),
    move(july(3), 'bought', 10, { ownCoins: 1500 }),
  ];

  it.each(['average', 'first in first out'] as const)(
    'is told, and corrected when it comes in (%s)',
    (method) => {
      const { moves: valued, shortages } = valueItem(moves, exact(100), { ...fifo, method });
      expect(shortages.map(({ day, below }) => [day, below.toNumber()])).toEqual([[july(2), 4]]);
      expect(valued.map(({ what, valueCoins }) => [what, valueCoins])).toEqual([
        ['bought', 1000],
        ['used', -1400],
        ['bought', 1500],
        ['correction', -200],
      ]);
    },
  );

  it('is none where only the period is reckoned and it came in the same period', () => {
    expect(valueItem(moves, exact(100), { ...fifo, timing: 'periodic' }).shortages).toEqual([]);
  });

  it('has the usual cost where none ever came in', () => {
    expect(coins([move(july(1), 'used', -3)], average)).toEqual([-300]);
  });
});

describe('small movements', () => {
  it('do not drift: a thousand thirds of a coin are 333 coins', () => {
    const moves = [
      move(july(1), 'bought', 3000, { ownCoins: 1000 }),
      ...Array.from({ length: 1000 }, () => move(july(2), 'used', -1)),
    ];
    for (const rule of rules) {
      const told = coins(moves, rule).slice(1);
      expect(told.reduce((sum, each) => sum + each, 0)).toBe(-333);
      for (const each of told) expect(Math.abs(each)).toBeLessThanOrEqual(1);
    }
  });
});

/** A history in which the opening comes first and every kind of movement may follow. */
const history = fc
  .tuple(
    fc.integer({ min: 0, max: 500 }),
    fc.array(
      fc.record({
        day: fc.integer({ min: july(1), max: july(1) + 100 }),
        what: fc.constantFrom<MoveKind>(
          'bought',
          'used',
          'sold',
          'waste',
          'returned by buyer',
          'counted',
          'returned to supplier',
        ),
        quantity: fc.integer({ min: 1, max: 4000 }).map((thousandths) => thousandths / 1000),
        coins: fc.integer({ min: 0, max: 100_000 }),
        origin: fc.constantFrom('', 'A', 'B'),
        found: fc.boolean(),
      }),
      { maxLength: 40 },
    ),
  )
  .map(([opening, rest]) =>
    inDayOrder([
      ...(opening === 0 ? [] : [move(july(1), 'opening', opening, { ownCoins: opening * 7 })]),
      ...rest.map(({ day, what, quantity, coins: own, origin, found }) => {
        const isIn = what === 'bought' || what === 'returned by buyer' || (what === 'counted' && found);
        const sized =
          what === 'bought' ? { ownCoins: own } : what === 'returned to supplier' ? { ownCoins: -own } : {};
        return move(day, what, isIn ? quantity : -quantity, { origin, ...sized });
      }),
    ]),
  );

describe.each(rules)('by $method, $timing', (rule) => {
  it('keeps quantity and value: what is left is what came in less what went out, to the coin', () => {
    fc.assert(
      fc.property(history, (moves) => {
        const { moves: valued, layers } = valueItem(moves, exact(100), rule);
        expect(valued.filter(({ what }) => what !== 'correction').map(({ quantity }) => quantity)).toEqual(
          moves.map(({ quantity }) => quantity),
        );
        const left = valued.reduce((sum, { quantity }) => sum.plus(quantity), nothing);
        const told = valued.reduce((sum, { valueCoins }) => sum + valueCoins, 0);
        for (const each of valued) {
          expect(Number.isInteger(each.valueCoins)).toBe(true);
          if (['bought', 'opening'].includes(each.what)) expect(each.valueCoins).toBe(each.ownCoins);
        }
        if (left.eq(0)) expect(told).toBe(0);
        if (left.gte(0)) {
          const held = layers.reduce((sum, { quantity }) => sum.plus(quantity), nothing);
          const worth = layers.reduce((sum, { value }) => sum.plus(value), nothing);
          expect(held.eq(left)).toBe(true);
          expect(
            worth
              .minus(told)
              .abs()
              .lte(0.5 + 1e-9),
          ).toBe(true);
          expect(worth.gte(-1e-9)).toBe(true);
        }
      }),
      { numRuns: 300 },
    );
  });

  it('does not change what is past when more happens later, in another period', () => {
    fc.assert(
      fc.property(history, (moves) => {
        const cut = moves.filter(({ day }) => day <= july(31));
        const past = valueItem(cut, exact(100), rule).moves;
        expect(valueItem(moves, exact(100), rule).moves.slice(0, past.length)).toEqual(past);
      }),
      { numRuns: 100 },
    );
  });
});

describe('first in, first out', () => {
  it('is the same perpetual and periodic where nothing is taken before it is there', () => {
    fc.assert(
      fc.property(
        fc.array(
          fc.record({
            in: fc.boolean(),
            quantity: fc.integer({ min: 1, max: 9 }),
            coins: fc.integer({ min: 1, max: 999 }),
          }),
        ),
        (steps) => {
          let onHand = 0;
          const ordered = steps.flatMap((step, at) => {
            if (!step.in && step.quantity > onHand) return [];
            onHand += step.in ? step.quantity : -step.quantity;
            return [
              step.in
                ? move(july(1) + at, 'bought', step.quantity, { ownCoins: step.coins })
                : move(july(1) + at, 'used', -step.quantity),
            ];
          });
          const total = (rule: ValuingRule): number =>
            coins(ordered, rule).reduce((sum, each) => sum + each, 0);
          expect(total({ ...fifo, timing: 'periodic', periodMonths: 12 })).toBe(total(fifo));
        },
      ),
    );
  });
});

/** The methods once more, piece by piece with plain lists and fractions of coins: an independent check. */
function reckoned(moves: readonly Move[], method: ValuingRule['method']): number {
  let pieces: number[] = [];
  let left = 0;
  for (const { quantity, ownCoins = 0 } of moves) {
    const count = quantity.toNumber();
    if (count > 0) pieces.push(...Array<number>(count).fill(ownCoins / count));
    if (method === 'average') {
      const mean = pieces.reduce((sum, each) => sum + each, 0) / pieces.length;
      pieces = pieces.map(() => mean);
    }
    if (count < 0) left += pieces.splice(0, -count).reduce((sum, each) => sum + each, 0);
  }
  return left;
}

describe.each(methods)('piece by piece, by %s', (method) => {
  it('costs the same', () => {
    const step = fc.record({
      in: fc.boolean(),
      count: fc.integer({ min: 1, max: 9 }),
      coins: fc.integer({ min: 0, max: 9999 }),
    });
    fc.assert(
      fc.property(fc.array(step, { minLength: 2, maxLength: 30 }), (steps) => {
        let onHand = 0;
        const moves = steps.flatMap((each, at) => {
          if (!each.in && each.count > onHand) return [];
          onHand += each.in ? each.count : -each.count;
          return [
            each.in
              ? move(july(1) + at, 'bought', each.count, { ownCoins: each.coins })
              : move(july(1) + at, 'used', -each.count),
          ];
        });
        const told = valueItem(moves, exact(1), { ...fifo, method }).moves;
        const out = told.reduce((sum, { what, valueCoins }) => (what === 'used' ? sum - valueCoins : sum), 0);
        expect(Math.abs(out - reckoned(moves, method))).toBeLessThanOrEqual(0.5 + 1e-6);
      }),
    );
  });
});
