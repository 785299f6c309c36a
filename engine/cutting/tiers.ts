import type { Tier } from './task.ts';

/**
 * The cheapest way to have at least so many packs of one kind: more than are needed where that reaches a
 * price at which all of them together cost less.
 */
export function packsFor(
  tiers: readonly Tier[],
  needed: number,
): { readonly bought: number; readonly cost: number; readonly costEach: number } {
  let best = { bought: 0, cost: needed === 0 ? 0 : Number.POSITIVE_INFINITY, costEach: 0 };
  if (needed === 0) return best;
  for (const { fromPacks, costEach } of tiers) {
    const bought = Math.max(needed, fromPacks);
    const cost = bought * costEach;
    if (cost < best.cost || (cost === best.cost && bought < best.bought)) best = { bought, cost, costEach };
  }
  return best;
}

/** The least that one pack can cost, at whatever number. */
export function leastCostEach(tiers: readonly Tier[]): number {
  return Math.min(...tiers.map((tier) => tier.costEach));
}
