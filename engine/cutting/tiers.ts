import type { Tier } from './task.ts';

/**
 * The cheapest way to have at least so many packs of one kind: more than are needed where that reaches a
 * price at which all of them together cost less.
 */
export function packsFor<Own extends Tier>(
  tiers: readonly Own[],
  needed: number,
): { readonly bought: number; readonly cost: number; readonly costEach: number; readonly tier?: Own } {
  let best: ReturnType<typeof packsFor<Own>> = {
    bought: 0,
    cost: needed === 0 ? 0 : Number.POSITIVE_INFINITY,
    costEach: 0,
  };
  if (needed === 0) return best;
  for (const tier of tiers) {
    const { fromPacks, costEach } = tier;
    const bought = Math.max(needed, fromPacks);
    const cost = bought * costEach;
    if (cost < best.cost || (cost === best.cost && bought < best.bought))
      best = { bought, cost, costEach, tier };
  }
  return best;
}

/** The least that one pack can cost, at whatever number. */
export function leastCostEach(tiers: readonly Tier[]): number {
  return Math.min(...tiers.map((tier) => tier.costEach));
}
