import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Offer, packMix } from '../../engine/cutting/packMix.ts';

/** The price of so many packs bought together: the cheapest tier that so many reach. */
function priceOf(offer: Offer, packs: number): number {
  if (packs === 0) return 0;
  const reached = offer.tiers.filter((tier) => tier.fromPacks <= packs).map((tier) => tier.costEach * packs);
  return Math.min(...reached);
}

/** Tries every number of every pack up to what covers the need twice over or reaches the highest tier. */
function leastByTrying(needed: number, offers: readonly Offer[]): number {
  const [offer, ...others] = offers;
  if (offer === undefined) return needed <= 0 ? 0 : Number.POSITIVE_INFINITY;
  const most = Math.max(
    Math.ceil(Math.max(0, needed) / offer.holds),
    ...offer.tiers.map((tier) => tier.fromPacks),
  );
  let least = Number.POSITIVE_INFINITY;
  for (let packs = 0; packs <= most; packs += 1)
    least = Math.min(least, priceOf(offer, packs) + leastByTrying(needed - packs * offer.holds, others));
  return least;
}

const offer = fc.record({
  holds: fc.integer({ min: 1, max: 12 }),
  tiers: fc
    .array(
      fc.record({ fromPacks: fc.integer({ min: 2, max: 6 }), costEach: fc.integer({ min: 0, max: 40 }) }),
      {
        maxLength: 2,
      },
    )
    .chain((more) =>
      fc.integer({ min: 1, max: 50 }).map((costEach) => [{ fromPacks: 1, costEach }, ...more]),
    ),
});

describe('packMix', () => {
  it('costs what trying every mix finds, and holds enough', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 40 }),
        fc.array(offer, { minLength: 1, maxLength: 3 }),
        (needed, offers) => {
          const mix = packMix(needed, offers);
          expect(mix.cost).toBe(leastByTrying(needed, offers));
          const held = mix.packs.reduce((sum, packs, at) => sum + packs * (offers[at]?.holds ?? 0), 0);
          expect(held).toBeGreaterThanOrEqual(needed);
          const cost = mix.packs.reduce(
            (sum, packs, at) => sum + (offers[at] ? priceOf(offers[at], packs) : 0),
            0,
          );
          expect(cost).toBe(mix.cost);
        },
      ),
      { numRuns: 300, seed: 3 },
    );
  });

  it('buys more than needed where a price break makes that cheaper', () => {
    const tiers = [
      { fromPacks: 1, costEach: 10 },
      { fromPacks: 5, costEach: 7 },
    ];
    expect(packMix(40, [{ holds: 10, tiers }])).toEqual({ cost: 35, packs: [5] });
  });

  it('mixes a large pack and small ones', () => {
    const mix = packMix(230, [
      { holds: 100, tiers: [{ fromPacks: 1, costEach: 900 }] },
      { holds: 10, tiers: [{ fromPacks: 1, costEach: 120 }] },
    ]);
    expect(mix).toEqual({ cost: 2160, packs: [2, 3] });
  });

  it('says infinity where limited packs do not suffice', () => {
    expect(packMix(5, [{ holds: 2, limit: 2, tiers: [{ fromPacks: 1, costEach: 1 }] }]).cost).toBe(
      Number.POSITIVE_INFINITY,
    );
  });

  it('costs one walk over the table, however many packs are bought', () => {
    const bead: Offer = { holds: 1, tiers: [{ fromPacks: 1, costEach: 20 }] };
    const dozen: Offer = { holds: 12, tiers: [{ fromPacks: 1, costEach: 200 }] };
    const hundred: Offer = {
      holds: 100,
      tiers: [
        { fromPacks: 1, costEach: 1400 },
        { fromPacks: 50, costEach: 1300 },
      ],
    };
    const mix = packMix(200_000, [bead, dozen, hundred]);
    expect(mix.packs).toEqual([0, 0, 2000]);
    expect(mix.cost).toBe(2000 * 1300);
  });
});
