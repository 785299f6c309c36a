import { type Bin, type BinGroup, type CutPlan, type CutTask, fitsInto } from './task.ts';
import { leastCostEach, packsFor } from './tiers.ts';

/** Turns bins into a plan: surplus pieces are left out, cheaper stock taken where it does, like bins gathered. */
export function planOf(task: CutTask, given: readonly Bin[]): CutPlan {
  const { bins, uncut } = withoutSurplus(task, given);
  const moved = inCheaperStock(task, bins);
  // A stock may be cheap only from more packs than the plan takes: then the bins stay where they were.
  const placed = costOf(task, moved) <= costOf(task, bins) ? moved : bins;
  return { groups: gathered(task, placed), uncut, cost: costOf(task, placed) };
}

/** Whether one plan is better than another: less left uncut, then less cost. */
export function isBetter(task: CutTask, one: CutPlan, other: CutPlan): boolean {
  const difference = uncutUm(task, one) - uncutUm(task, other);
  return difference < 0 || (difference === 0 && one.cost < other.cost);
}

export function uncutUm(task: CutTask, plan: CutPlan): number {
  return plan.uncut.reduce((sum, count, piece) => sum + count * task.pieces[piece]!.lengthUm, 0);
}

/** Units of each stock that are cut. */
export function unitsByStock(task: CutTask, bins: readonly (Bin & { readonly times?: number })[]): number[] {
  const units = task.stocks.map(() => 0);
  for (const bin of bins) units[bin.stock] = units[bin.stock]! + (bin.times ?? 1);
  return units;
}

function costOf(task: CutTask, bins: readonly Bin[]): number {
  return unitsByStock(task, bins).reduce(
    (sum, units, stock) => sum + packsFor(task.stocks[stock]!.tiers, units).cost,
    0,
  );
}

function withoutSurplus(task: CutTask, given: readonly Bin[]): { bins: Bin[]; uncut: number[] } {
  const wanting = task.pieces.map((piece) => piece.count);
  const bins: Bin[] = [];
  for (const bin of given) {
    const counts = bin.counts.map((count, piece) => {
      const kept = Math.min(count, wanting[piece]!);
      wanting[piece] = wanting[piece]! - kept;
      return kept;
    });
    if (counts.some((count) => count > 0)) bins.push({ stock: bin.stock, counts });
  }
  return { bins, uncut: wanting };
}

/** Moves each bin to the cheapest stock that is long enough and not used up; of equal cost to the shortest. */
function inCheaperStock(task: CutTask, bins: readonly Bin[]): Bin[] {
  const used = unitsByStock(task, bins);
  const order = task.stocks
    .map((stock, at) => ({ at, cost: leastCostEach(stock.tiers), ...stock }))
    .sort((one, other) => one.cost - other.cost || one.lengthUm - other.lengthUm || one.at - other.at);
  return bins.map((bin) => {
    for (const stock of order) {
      if (stock.at === bin.stock) return bin;
      if (stock.limit !== null && used[stock.at]! >= stock.limit) continue;
      if (!fitsInto(task, bin, stock.lengthUm)) continue;
      used[bin.stock] = used[bin.stock]! - 1;
      used[stock.at] = used[stock.at]! + 1;
      return { stock: stock.at, counts: bin.counts };
    }
    return bin;
  });
}

function gathered(task: CutTask, bins: readonly Bin[]): BinGroup[] {
  const groups = new Map<string, { stock: number; counts: readonly number[]; times: number }>();
  for (const bin of bins) {
    const name = `${bin.stock}:${bin.counts.join(',')}`;
    const group = groups.get(name);
    if (group === undefined) groups.set(name, { stock: bin.stock, counts: bin.counts, times: 1 });
    else group.times += 1;
  }
  const longest = (bin: Bin): number =>
    bin.counts.reduce(
      (most, count, piece) => (count > 0 ? Math.max(most, task.pieces[piece]!.lengthUm) : most),
      0,
    );
  return [...groups.values()].sort(
    (one, other) => one.stock - other.stock || longest(other) - longest(one) || other.times - one.times,
  );
}
