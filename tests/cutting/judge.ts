import type { CutPlan, CutTask } from '../../engine/cutting/task.ts';

/**
 * A judge of cutting plans that shares nothing with the engine: it lays the pieces down along each length of
 * stock, one after the other, and walks the saw from piece to piece.
 *
 * @returns what is wrong, in words; empty where the plan holds
 */
export function judge(task: CutTask, plan: CutPlan): string[] {
  const faults: string[] = [];
  const bench: string[] = [];
  const stockroom = task.stocks.map(({ limit }) => limit ?? Number.POSITIVE_INFINITY);
  const opened = task.stocks.map(() => 0);
  for (const { stock: at, counts, times } of plan.groups) {
    for (let unit = 0; unit < times; unit += 1) {
      const stock = task.stocks[at];
      if (stock === undefined) return [`there is no stock ${at}`];
      stockroom[at] = (stockroom[at] ?? 0) - 1;
      opened[at] = (opened[at] ?? 0) + 1;
      if ((stockroom[at] ?? 0) < 0) faults.push(`stock ${at} is used up`);
      const pieces = counts.flatMap((count, piece) => Array.from({ length: count }, () => piece));
      if (pieces.length === 0) faults.push(`stock ${at} is opened for nothing`);
      let reached = 0;
      pieces.forEach((piece, index) => {
        if (index > 0) reached += task.kerfUm;
        reached += task.pieces[piece]?.lengthUm ?? Number.NaN;
        bench.push(String(piece));
      });
      if (!(reached <= stock.lengthUm)) faults.push(`stock ${at}: ${reached} of ${stock.lengthUm}`);
    }
  }
  task.pieces.forEach((piece, at) => {
    const cut = bench.filter((each) => each === String(at)).length;
    if (cut + (plan.uncut[at] ?? 0) !== piece.count) faults.push(`piece ${at}: ${cut} of ${piece.count}`);
  });
  // What the stock costs, every number of packs tried from what is needed to what the last price break asks for.
  const cost = task.stocks.reduce((sum, { tiers }, at) => {
    const units = opened[at] ?? 0;
    if (units === 0) return sum;
    const most = Math.max(units, ...tiers.map(({ fromPacks }) => fromPacks));
    let least = Number.POSITIVE_INFINITY;
    for (let packs = units; packs <= most; packs += 1)
      for (const tier of tiers) if (packs >= tier.fromPacks) least = Math.min(least, packs * tier.costEach);
    return sum + least;
  }, 0);
  if (Math.abs(cost - plan.cost) > 1e-6 * Math.max(1, cost))
    faults.push(`it costs ${cost}, not ${plan.cost}`);
  return faults;
}
