import { planOf, unitsByStock } from './binPlan.ts';
import type { Bin, CutPlan, CutTask, Tier } from './task.ts';
import { leastCostEach, packsFor } from './tiers.ts';

/** In which order new stock is opened. */
const preferences = ['cheapest', 'cheapest for its length', 'longest'] as const;

/**
 * The best of a few quick plans: the longest piece first, each into the open stock that it fills best, and
 * new stock opened by one preference after another.
 *
 * @param begun bins that stand already and are kept; only what they leave uncut is placed
 */
export function firstFit(task: CutTask, begun: readonly Bin[] = []): CutPlan {
  let best: CutPlan | undefined;
  const shortOf = (plan: CutPlan): number =>
    plan.uncut.reduce((sum, count, at) => sum + count * task.pieces[at]!.lengthUm, 0);
  for (const costOf of [leastCostEach, costOfOne]) {
    for (const preference of preferences) {
      const plan = planOf(task, placed(task, begun, preference, costOf));
      if (
        best === undefined ||
        shortOf(plan) < shortOf(best) ||
        (shortOf(plan) === shortOf(best) && plan.cost < best.cost)
      )
        best = plan;
    }
    // Without price breaks both costs are one.
    if (task.stocks.every((stock) => stock.tiers.length === 1)) break;
  }
  return best as CutPlan;
}

/** What a pack costs where only one is taken. */
const costOfOne = (tiers: readonly Tier[]): number => packsFor(tiers, 1).cost;

function placed(
  task: CutTask,
  begun: readonly Bin[],
  preference: (typeof preferences)[number],
  costOf: (tiers: readonly Tier[]) => number,
): Bin[] {
  const wanting = task.pieces.map((piece) => piece.count);
  for (const bin of begun)
    bin.counts.forEach((count, piece) => {
      wanting[piece] = Math.max(0, wanting[piece]! - count);
    });
  const used = unitsByStock(task, begun);
  const order = stockOrder(task, preference, costOf);
  const open: { stock: number; counts: number[]; left: number }[] = [];
  const pieces = task.pieces
    .map((piece, at) => ({ at, size: piece.lengthUm + task.kerfUm }))
    .sort((one, other) => other.size - one.size);
  for (const { at, size } of pieces) {
    for (let count = wanting[at]!; count > 0; count -= 1) {
      let tightest: (typeof open)[number] | undefined;
      for (const bin of open)
        if (bin.left >= size && (tightest === undefined || bin.left < tightest.left)) tightest = bin;
      if (tightest === undefined) {
        const stock = order.find(
          (each) => each.room >= size && (each.limit === null || used[each.at]! < each.limit),
        );
        if (stock === undefined) break;
        used[stock.at] = used[stock.at]! + 1;
        tightest = { stock: stock.at, counts: task.pieces.map(() => 0), left: stock.room };
        open.push(tightest);
      }
      tightest.counts[at] = tightest.counts[at]! + 1;
      tightest.left -= size;
    }
  }
  return [...begun, ...open];
}

function stockOrder(
  task: CutTask,
  preference: (typeof preferences)[number],
  costOf: (tiers: readonly Tier[]) => number,
): { at: number; room: number; limit: number | null }[] {
  const rank = (cost: number, lengthUm: number): number =>
    preference === 'cheapest' ? cost : preference === 'longest' ? -lengthUm : cost / lengthUm;
  return task.stocks
    .map((stock, at) => ({
      at,
      limit: stock.limit,
      room: stock.lengthUm + task.kerfUm,
      rank: rank(costOf(stock.tiers), stock.lengthUm),
    }))
    .sort((one, other) => one.rank - other.rank || one.room - other.room || one.at - other.at);
}
