import { commonStep } from './knapsack.ts';
import type { Tier } from './task.ts';
import { packsFor } from './tiers.ts';

/** A pack on sale, with what it costs by how many of it are bought. */
export interface Offer {
  /** A whole number of pieces. */
  readonly holds: number;
  readonly tiers: readonly Tier[];
  /** How many there are; any number where it is left out. */
  readonly limit?: number;
}

export interface PackMix {
  readonly cost: number;
  /** Packs bought of each offer. */
  readonly packs: readonly number[];
}

/**
 * The cheapest whole packs that together hold at least what is needed, price breaks included. Exact: a table
 * over what is still needed, one offer after another. Of equal cost, the mix that takes fewer packs of later offers.
 *
 * @param needed a whole number
 * @returns a cost of infinity where the offers are too few
 */
export function packMix(needed: number, offers: readonly Offer[]): PackMix {
  // Packs of 100 and 500 only ever make hundreds.
  const step = offers.reduce((common, offer) => commonStep(common, offer.holds), 0) || 1;
  const steps = Math.ceil(needed / step);
  let least = new Float64Array(steps + 1).fill(Number.POSITIVE_INFINITY);
  least[0] = 0;
  const chosen: Int32Array[] = [];
  for (const offer of offers) {
    const size = offer.holds / step;
    const next = Float64Array.from(least);
    const choice = new Int32Array(steps + 1);
    if (offer.limit === undefined) {
      for (const tier of offer.tiers) withTier(least, size, tier, next, choice);
    } else {
      withLimit(least, size, offer.tiers, offer.limit, next, choice);
    }
    least = next;
    chosen.push(choice);
  }
  let rest = steps;
  const packs = offers.map(() => 0);
  for (let at = offers.length - 1; at >= 0; at -= 1) {
    const offer = offers[at];
    const count = chosen[at]?.[rest] ?? 0;
    if (offer === undefined || count === 0) continue;
    packs[at] = packsFor(offer.tiers, count).bought;
    rest = Math.max(0, rest - (count * offer.holds) / step);
  }
  return { cost: least[steps]!, packs };
}

/**
 * Any number of packs at the price of one tier: first as many as it asks for in one lump, then pack by pack,
 * each on top of what covers one pack less. One walk over the table, however many packs are bought.
 */
function withTier(
  least: Float64Array,
  size: number,
  tier: Tier,
  next: Float64Array,
  choice: Int32Array,
): void {
  const cost = new Float64Array(least.length);
  const packs = new Int32Array(least.length);
  for (let rest = 0; rest < least.length; rest += 1) {
    const lump = least[Math.max(0, rest - tier.fromPacks * size)]! + tier.fromPacks * tier.costEach;
    const before = Math.max(0, rest - size);
    const onTop = rest === 0 ? Number.POSITIVE_INFINITY : cost[before]! + tier.costEach;
    cost[rest] = Math.min(lump, onTop);
    packs[rest] = lump <= onTop ? tier.fromPacks : packs[before]! + 1;
    if (cost[rest]! < next[rest]!) {
      next[rest] = cost[rest]!;
      choice[rest] = packs[rest]!;
    }
  }
}

/** Up to so many packs: every number is tried. */
function withLimit(
  least: Float64Array,
  size: number,
  tiers: readonly Tier[],
  limit: number,
  next: Float64Array,
  choice: Int32Array,
): void {
  const most = Math.min(limit, Math.ceil((least.length - 1) / size));
  const costs = Array.from({ length: most + 1 }, (_, packs) => packsFor(tiers, packs).cost);
  for (let rest = 0; rest < least.length; rest += 1) {
    for (let packs = 1; packs <= most; packs += 1) {
      const cost = costs[packs]! + least[Math.max(0, rest - packs * size)]!;
      if (cost < next[rest]!) {
        next[rest] = cost;
        choice[rest] = packs;
      }
      if (packs * size >= rest) break;
    }
  }
}
