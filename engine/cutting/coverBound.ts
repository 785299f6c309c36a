import { packMix } from './packMix.ts';
import type { CutTask } from './task.ts';

/** More steps would not make the bound much better, only slower. */
const mostSteps = 20_000;

/**
 * A cost that no plan can be below, counted in whole units of stock: if every piece has a worth and no cut of a
 * stock is worth more than so much, the stock taken must together be worth what all pieces are. With lengths as
 * worths that says "so many spools must be there at least"; unlike the linear program it knows that a spool
 * cannot be bought in part, and it knows price breaks.
 *
 * @param worths of the pieces, not negative
 * @param mostWorth for each stock, what no cut of it exceeds
 */
export function coverBound(task: CutTask, worths: readonly number[], mostWorth: readonly number[]): number {
  const needed = task.pieces.reduce((sum, piece, at) => sum + piece.count * worths[at]!, 0);
  if (needed <= 0) return 0;
  // Rounded so that the stocks seem worth more and the pieces less: the bound stays one. The stock that most is
  // bought of is a whole number of steps, since its rounding would add up spool by spool.
  const main = Math.max(...mostWorth.filter((_, at) => task.stocks[at]?.limit === null), 0) || needed;
  const step = main / Math.max(1, Math.floor((main / needed) * mostSteps));
  const stocks = task.stocks.map((stock, at) => ({
    stock,
    holds: Math.ceil(mostWorth[at]! / step - 1e-10),
  }));
  const { cost } = packMix(
    Math.floor(needed / step - 1e-6),
    stocks
      .filter(({ holds }) => holds > 0)
      .map(({ stock, holds }) => ({
        holds,
        tiers: stock.tiers,
        ...(stock.limit === null ? {} : { limit: stock.limit }),
      })),
  );
  return Number.isFinite(cost) ? cost : 0;
}
