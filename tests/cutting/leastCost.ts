import type { CutTask } from '../../engine/cutting/task.ts';

/** What cutting all pieces costs at least, by trying every way. For small tasks. */
export function leastCost(task: CutTask): number {
  const sizes = task.pieces.map((piece) => piece.lengthUm + task.kerfUm);
  const known = new Map<string, number>();

  function rest(wanting: readonly number[], used: readonly number[]): number {
    if (wanting.every((count) => count === 0)) return priceOf(used);
    const name = `${wanting}|${used}`;
    const before = known.get(name);
    if (before !== undefined) return before;
    let least = Number.POSITIVE_INFINITY;
    task.stocks.forEach((stock, at) => {
      if (stock.limit !== null && (used[at] ?? 0) >= stock.limit) return;
      const usedNow = used.map((count, index) => (index === at ? count + 1 : count));
      for (const left of afterOneCut(wanting, stock.lengthUm + task.kerfUm, 0))
        if (left.some((count, index) => count !== wanting[index]))
          least = Math.min(least, rest(left, usedNow));
    });
    known.set(name, least);
    return least;
  }

  /** Of so many units of each stock; one may buy more than one uses. */
  function priceOf(used: readonly number[]): number {
    return task.stocks.reduce((sum, stock, at) => {
      const units = used[at] ?? 0;
      const prices = stock.tiers.map((tier) => Math.max(units, tier.fromPacks) * tier.costEach);
      return sum + (units === 0 ? 0 : Math.min(...prices));
    }, 0);
  }

  /** Everything that may be wanting still after pieces were cut, or none, from one unit of stock. */
  function afterOneCut(wanting: readonly number[], room: number, from: number): number[][] {
    if (from === wanting.length) return [[...wanting]];
    const results: number[][] = [];
    const most = Math.min(wanting[from] ?? 0, Math.floor(room / (sizes[from] ?? 1)));
    for (let count = most; count >= 0; count -= 1) {
      const left = wanting.map((each, at) => (at === from ? each - count : each));
      results.push(...afterOneCut(left, room - count * (sizes[from] ?? 0), from + 1));
    }
    return results;
  }

  return rest(
    task.pieces.map((piece) => piece.count),
    task.stocks.map(() => 0),
  );
}
