import type { Solver } from '../solver/solver.ts';
import type { Bin, CutTask } from './task.ts';
import { leastCostEach } from './tiers.ts';

/** Limits of one search. */
export interface WholeSearch {
  readonly seconds: number;
  /** A cost that cannot be beaten. */
  readonly enough: number;
  /** No two costs differ by less. */
  readonly step: number;
}

/**
 * The best plan out of a pool of patterns, each used a whole number of times: an integer program, in which
 * packs with price breaks are counted tier by tier.
 *
 * @returns bins that cover all pieces (some perhaps too often), or undefined where nothing was found
 */
export function wholePatterns(
  task: CutTask,
  solver: Solver,
  pool: readonly Bin[],
  search: WholeSearch,
): { readonly bins: readonly Bin[]; readonly complete: boolean } | undefined {
  const model = solver.model();
  try {
    // Reckoned in the cost of the dearest stock, as figures near one keep the solver exact.
    const dearest =
      Math.max(...task.stocks.flatMap((stock) => stock.tiers.map((tier) => tier.costEach))) || 1;
    let rows = 0;
    const addRow = (least: number, most: number): number => {
      model.addRow(least, most);
      rows += 1;
      return rows - 1;
    };
    const most = Number.POSITIVE_INFINITY;
    const least = Number.NEGATIVE_INFINITY;
    for (const piece of task.pieces) addRow(piece.count, most);
    const mostUnits = task.pieces.reduce((sum, piece) => sum + piece.count, 0);
    const stockRows = task.stocks.map((stock) => {
      const tiered = stock.limit === null && stock.tiers.length > 1;
      return stock.limit === null && !tiered ? undefined : addRow(least, stock.limit ?? 0);
    });
    const tierRows = task.stocks.map((stock) =>
      stock.limit === null && stock.tiers.length > 1
        ? {
            one: addRow(least, 1),
            tiers: stock.tiers.map(() => ({ floor: addRow(0, most), roof: addRow(least, 0) })),
          }
        : undefined,
    );
    for (const bin of pool) {
      const stock = task.stocks[bin.stock];
      const row = stockRows[bin.stock];
      model.addColumn({
        cost: tierRows[bin.stock] === undefined ? leastCostEach(stock?.tiers ?? []) / dearest : 0,
        most,
        integer: true,
        entries: [
          ...bin.counts.flatMap((count, piece): [number, number][] => (count > 0 ? [[piece, count]] : [])),
          ...(row === undefined ? [] : [[row, 1] as [number, number]]),
        ],
      });
    }
    task.stocks.forEach((stock, at) => {
      const own = tierRows[at];
      const row = stockRows[at];
      if (own === undefined || row === undefined) return;
      stock.tiers.forEach((tier, index) => {
        const { floor, roof } = own.tiers[index]!;
        const bought: [number, number][] = [
          [row, -1],
          [floor, 1],
          [roof, 1],
        ];
        model.addColumn({ cost: tier.costEach / dearest, most, integer: true, entries: bought });
        model.addColumn({
          cost: 0,
          most: 1,
          integer: true,
          entries: [
            [own.one, 1],
            [floor, -tier.fromPacks],
            [roof, -Math.max(mostUnits, tier.fromPacks)],
          ],
        });
      });
    });
    const answer = model.solve({
      seconds: search.seconds,
      enough: search.enough / dearest,
      step: search.step / dearest,
    });
    if (!answer.solved) return undefined;
    const bins = pool.flatMap((bin, at) =>
      Array.from({ length: Math.round(answer.columns[at]!) }, () => bin),
    );
    return { bins, complete: answer.optimal };
  } finally {
    model.dispose();
  }
}
