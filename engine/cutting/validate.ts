import type { CutPlan, CutTask } from './task.ts';

/**
 * Checks a plan against its task from the definition alone, sharing no reckoning with what made it. Every plan
 * passes here before anything is shown.
 *
 * @returns what is wrong, in words; empty where the plan holds
 */
export function validate(task: CutTask, plan: CutPlan): string[] {
  const faults: string[] = [];
  const cut = task.pieces.map(() => 0);
  const used = task.stocks.map(() => 0);
  for (const group of plan.groups) {
    const stock = task.stocks[group.stock];
    if (stock === undefined || !Number.isInteger(group.times) || group.times < 1) {
      faults.push(`a bin of stock ${group.stock}, ${group.times} times`);
      continue;
    }
    used[group.stock] = used[group.stock]! + group.times;
    let total = 0;
    let pieces = 0;
    group.counts.forEach((count, at) => {
      const piece = task.pieces[at];
      if (piece === undefined || !Number.isInteger(count) || count < 0) {
        faults.push(`${count} of piece ${at}`);
        return;
      }
      cut[at] = cut[at]! + count * group.times;
      total += count * piece.lengthUm;
      pieces += count;
    });
    // The last cut is saved where the last piece ends with the stock.
    if (pieces > 0 && total + (pieces - 1) * task.kerfUm > stock.lengthUm)
      faults.push(`${stock.label} is overrun by ${total + (pieces - 1) * task.kerfUm - stock.lengthUm} um`);
    if (pieces === 0) faults.push(`${stock.label} is taken and nothing is cut from it`);
  }
  task.pieces.forEach((piece, at) => {
    const got = cut[at]! + (plan.uncut[at] ?? 0);
    if (got !== piece.count) faults.push(`${piece.label}: ${got} instead of ${piece.count}`);
    if ((plan.uncut[at] ?? 0) < 0) faults.push(`${piece.label}: fewer than none uncut`);
  });
  let cost = 0;
  task.stocks.forEach((stock, at) => {
    const units = used[at]!;
    if (stock.limit !== null && units > stock.limit)
      faults.push(`${stock.label}: ${units} used of ${stock.limit}`);
    if (units > 0)
      cost += Math.min(...stock.tiers.map((tier) => Math.max(units, tier.fromPacks) * tier.costEach));
  });
  if (Math.abs(cost - plan.cost) > 1e-6 * Math.max(1, cost))
    faults.push(`cost ${plan.cost} instead of ${cost}`);
  return faults;
}
