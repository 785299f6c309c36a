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
  let least = Array.from({ length: steps + 1 }, (_, rest) => (rest === 0 ? 0 : Number.POSITIVE_INFINITY));
  const chosen: number[][] = [];
  for (const offer of offers) {
    const size = offer.holds / step;
    const most = Math.min(offer.limit ?? Number.POSITIVE_INFINITY, Math.ceil(steps / size));
    const costs = Array.from({ length: most + 1 }, (_, packs) => packsFor(offer.tiers, packs).cost);
    const choice = new Array<number>(steps + 1).fill(0);
    least = least.map((without, rest) => {
      let best = without;
      for (let packs = 1; packs < costs.length; packs += 1) {
        const cost = (costs[packs] ?? 0) + (least[Math.max(0, rest - packs * size)] ?? 0);
        if (cost < best) {
          best = cost;
          choice[rest] = packs;
        }
        if (packs * size >= rest) break;
      }
      return best;
    });
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
  return { cost: least[steps] ?? 0, packs };
}
