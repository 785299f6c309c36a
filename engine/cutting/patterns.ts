import type { Solver, SolverModel } from '../solver/solver.ts';
import { coverBound } from './coverBound.ts';
import { commonStep, Knapsack } from './knapsack.ts';
import type { Bin, CutTask } from './task.ts';
import { leastCostEach } from './tiers.ts';

/** Leaving a piece uncut costs so many times the dearest stock: never worth it where there is stock. */
const uncutTimes = 1000;

/** The mix of patterns that costs least when parts of a pattern may be used, and what it proves. */
export interface Mix {
  /** How often each pattern of the pool is used; not whole. */
  readonly uses: readonly number[];
  /** No whole plan for the pieces asked for costs less. */
  readonly bound: number;
  /** What the last prices say about whole units of stock: another bound, for the whole task only. */
  readonly boundByPrices: () => number;
}

/**
 * Column generation (Gilmore and Gomory 1961; from memory): a linear program over the patterns found so far
 * prices the pieces, an exact knapsack finds for each stock the pattern that these prices pay best, and the
 * two take turns until no pattern pays. The pool of patterns is kept from one call to the next.
 *
 * The bound holds after every turn: prices are scaled down until no stock's best pattern is worth more than
 * the stock costs (for limited stock, what it is worth beyond that is set against the limit), which makes
 * them a feasible answer of the dual program.
 */
export class Patterns {
  readonly pool: Bin[] = [];
  readonly #task: CutTask;
  readonly #solver: Solver;
  readonly #knapsack: Knapsack;
  /** Cost of the dearest stock; the solver reckons in it, as figures near one keep it exact. */
  readonly #dearest: number;
  readonly #costs: readonly number[];
  readonly #known = new Set<string>();

  constructor(task: CutTask, solver: Solver) {
    this.#task = task;
    this.#solver = solver;
    this.#knapsack = new Knapsack(task);
    const costs = task.stocks.map((stock) => leastCostEach(stock.tiers));
    this.#dearest = Math.max(...costs) || 1;
    this.#costs = costs.map((cost) => cost / this.#dearest);
  }

  /** No plan costs less than what the lengths of all pieces take, in whole units of stock. */
  boundByLength(): number {
    const lengths = this.#task.pieces.map((piece) => piece.lengthUm);
    // A table in coarse steps may promise more than the stock is long.
    const most = this.#knapsack
      .price(lengths)
      .mostWorth.map((worth, stock) => Math.min(worth, this.#task.stocks[stock]!.lengthUm));
    return coverBound(this.#task, lengths, most);
  }

  /** Adds a pattern to the pool; false where it is there already. */
  add(bin: Bin): boolean {
    const name = `${bin.stock}:${bin.counts.join(',')}`;
    if (this.#known.has(name)) return false;
    this.#known.add(name);
    this.pool.push(bin);
    return true;
  }

  /**
   * @param wanting pieces to cut, by their place in the task
   * @param limits units of each stock that may be used
   * @param pause lets the caller breathe between turns; stops the search where it gives true
   */
  async mix(
    wanting: readonly number[],
    limits: readonly (number | null)[],
    pause: (turn: number, bound: number) => Promise<boolean>,
  ): Promise<Mix> {
    const model = this.#solver.model();
    try {
      const limitRows = this.#rows(model, wanting, limits);
      const start = this.#addUncut(model);
      for (const bin of this.pool) this.#addColumn(model, bin, limitRows);
      let bound = 0;
      let last: Mix = { uses: [], bound, boundByPrices: () => 0 };
      for (let turn = 0; ; turn += 1) {
        const answer = model.solve();
        // The bound of the turns before holds all the same.
        if (!answer.solved) return last;
        const prices = wanting.map((_, piece) => Math.max(0, answer.duals[piece]!));
        const pricing = this.#knapsack.price(prices);
        bound = Math.max(bound, this.#bound(prices, pricing.mostWorth, wanting, limits));
        let grown = false;
        for (let stock = 0; stock < this.#task.stocks.length; stock += 1) {
          const counts = pricing.counts[stock]!;
          const worth = counts.reduce((sum, count, piece) => sum + count * prices[piece]!, 0);
          const row = limitRows[stock];
          const cost = this.#costs[stock]! - (row === undefined ? 0 : Math.min(0, answer.duals[row]!));
          if (limits[stock] === 0 || worth <= cost + 1e-9 * Math.max(1, cost) || !this.add({ stock, counts }))
            continue;
          this.#addColumn(model, { stock, counts }, limitRows);
          grown = true;
        }
        const closed = answer.cost - bound < 1e-7 * Math.max(1, answer.cost);
        const worths = pricing.mostWorth;
        last = {
          uses: [...answer.columns.subarray(start)],
          bound: bound * this.#dearest,
          boundByPrices: () => coverBound(this.#task, prices, worths),
        };
        if (!grown || closed || (await pause(turn, last.bound))) return last;
      }
    } finally {
      model.dispose();
    }
  }

  #rows(
    model: SolverModel,
    wanting: readonly number[],
    limits: readonly (number | null)[],
  ): (number | undefined)[] {
    for (const count of wanting) model.addRow(count, Number.POSITIVE_INFINITY);
    let next = wanting.length;
    return limits.map((limit) => {
      if (limit === null) return undefined;
      model.addRow(Number.NEGATIVE_INFINITY, limit);
      next += 1;
      return next - 1;
    });
  }

  /** Columns that stand for pieces left uncut, so that the program always has an answer. */
  #addUncut(model: SolverModel): number {
    this.#task.pieces.forEach((_, piece) => {
      model.addColumn({
        cost: uncutTimes,
        most: Number.POSITIVE_INFINITY,
        integer: false,
        entries: [[piece, 1]],
      });
    });
    return this.#task.pieces.length;
  }

  #addColumn(model: SolverModel, bin: Bin, limitRows: readonly (number | undefined)[]): void {
    const entries: [number, number][] = bin.counts.flatMap((count, piece): [number, number][] =>
      count > 0 ? [[piece, count]] : [],
    );
    const row = limitRows[bin.stock];
    if (row !== undefined) entries.push([row, 1]);
    model.addColumn({
      cost: this.#costs[bin.stock]!,
      most: Number.POSITIVE_INFINITY,
      integer: false,
      entries,
    });
  }

  #bound(
    prices: readonly number[],
    mostWorth: readonly number[],
    wanting: readonly number[],
    limits: readonly (number | null)[],
  ): number {
    let scale = 1;
    limits.forEach((limit, stock) => {
      const worth = mostWorth[stock]!;
      if (limit === null && worth > 0) scale = Math.min(scale, this.#costs[stock]! / worth);
    });
    let bound = prices.reduce((sum, price, piece) => sum + scale * price * wanting[piece]!, 0);
    limits.forEach((limit, stock) => {
      const surplus = scale * mostWorth[stock]! - this.#costs[stock]!;
      if (limit !== null && surplus > 0) bound -= limit * surplus;
    });
    return Math.max(0, bound);
  }
}

/** Costs of whole plans are multiples of this, so a bound may be rounded up to the next; zero where all is free. */
export function costStep(task: CutTask): number {
  return task.stocks.flatMap((stock) => stock.tiers.map((tier) => tier.costEach)).reduce(commonStep, 0);
}

/** A bound rounded up to the next cost that a whole plan can have; what may be the dust of floats is taken off first. */
export function roundedBound(bound: number, step: number): number {
  return step === 0 ? 0 : Math.ceil(bound / step - Math.max(1e-6, (1e-9 * bound) / step)) * step;
}
