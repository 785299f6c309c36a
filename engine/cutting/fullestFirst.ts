import { Knapsack } from './knapsack.ts';
import type { Bin, CutTask } from './task.ts';
import { leastCostEach } from './tiers.ts';

/**
 * How much more a long piece counts than its length says: those are the hard ones to place, and short ones fill
 * up the last lengths of stock.
 */
export const lengthPowers = [1.02, 1.2, 1] as const;

/**
 * A plan stock by stock, each cut so that as little of it as can be is left over; the pattern is used again as long as all
 * its pieces are wanted. Finds plans with hardly any waste, where first fit and diving end a pack short of them.
 *
 * @param power see `lengthPowers`
 * @param pause lets the caller breathe; ends the search where it gives true
 * @returns bins for as many pieces as there is stock for, or undefined where it was ended
 */
export async function fullestFirst(
  task: CutTask,
  power: number,
  pause: () => Promise<boolean>,
): Promise<Bin[] | undefined> {
  const wanting = task.pieces.map((piece) => piece.count);
  const left = task.stocks.map((stock) => stock.limit ?? Number.POSITIVE_INFINITY);
  const worths = task.pieces.map((piece) => (piece.lengthUm + task.kerfUm) ** power);
  const order = task.stocks
    .map((stock, at) => ({ at, rank: leastCostEach(stock.tiers) / stock.lengthUm, lengthUm: stock.lengthUm }))
    .sort((one, other) => one.rank - other.rank || other.lengthUm - one.lengthUm || one.at - other.at);
  const bins: Bin[] = [];
  for (const { at } of order) {
    while (left[at]! > 0 && wanting.some((count) => count > 0)) {
      if (await pause()) return undefined;
      const rest: CutTask = {
        ...task,
        pieces: task.pieces.map((piece, index) => ({ ...piece, count: wanting[index]! })),
        stocks: task.stocks.slice(at, at + 1),
      };
      const counts = new Knapsack(rest).price(worths).counts[0]!;
      if (counts.every((count) => count === 0)) break;
      const times = counts.reduce(
        (least, count, piece) => (count === 0 ? least : Math.min(least, Math.floor(wanting[piece]! / count))),
        left[at]!,
      );
      for (let time = 0; time < times; time += 1) bins.push({ stock: at, counts });
      left[at] = left[at]! - times;
      counts.forEach((count, piece) => {
        wanting[piece] = wanting[piece]! - count * times;
      });
    }
  }
  return bins;
}
