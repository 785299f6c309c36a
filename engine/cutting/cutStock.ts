import type { Solver } from '../solver/solver.ts';
import { allPatterns } from './allPatterns.ts';
import { isBetter, planOf, uncutUm, unitsByStock } from './binPlan.ts';
import { firstFit } from './firstFit.ts';
import { fullestFirst, lengthPowers } from './fullestFirst.ts';
import { costStep, Patterns, roundedBound } from './patterns.ts';
import { type Bin, type CutPlan, type CutTask, fitsInto, type StopSignal } from './task.ts';
import { validate } from './validate.ts';
import { wholePatterns } from './wholePatterns.ts';

export interface CutResult {
  readonly plan: CutPlan;
  /** No plan that cuts every piece costs less; of no meaning where pieces stay uncut. */
  readonly bound: number;
  /** True where the plan costs the bound, so that none costs less. */
  readonly proven: boolean;
}

export interface CutOptions {
  /** Once aborted, the best plan so far is given. */
  readonly signal?: StopSignal;
  readonly progress?: (state: { readonly cost: number; readonly bound: number }) => void;
  /** Seconds of each search among whole patterns, one after the other; signals are heeded in between. */
  readonly searchSeconds?: readonly number[];
  /** A plan to begin from. */
  readonly begin?: readonly Bin[];
}

/** An integer program over so many patterns is still quick. */
const mostPatterns = 3_000;

/** Lets timers and signals of the surroundings have their turn. */
const breathe = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 0));

/**
 * Cuts all pieces out of stock at the least cost: first fit, then column generation for a bound and good
 * patterns, whole plans by diving and by filling stock after stock, then an integer program over the patterns found. Stops as soon as the
 * plan costs the bound. The same task gives the same plan, unless a search runs out of time.
 */
export async function cutStock(task: CutTask, solver: Solver, options: CutOptions = {}): Promise<CutResult> {
  const step = costStep(task);
  let best = firstFit(task);
  let bound = 0;
  const take = (bins: readonly Bin[]): void => {
    const plan = planOf(task, bins);
    if (isBetter(task, plan, best)) best = plan;
    options.progress?.({ cost: best.cost, bound });
  };
  const isDone = (): boolean => uncutUm(task, best) === 0 && best.cost <= bound;
  const isStopped = (): boolean => options.signal?.aborted === true;
  const finished = (): CutResult => {
    const faults = validate(task, best);
    if (faults.length > 0) throw new Error(`A cutting plan that does not hold: ${faults.join('; ')}`);
    return { plan: best, bound: Math.min(bound, best.cost), proven: isDone() };
  };
  if (options.begin !== undefined) take(options.begin);
  await breathe();
  if (task.pieces.length > 0 && !isDone() && !isStopped()) {
    const patterns = new Patterns(task, solver);
    bound = roundedBound(patterns.boundByLength(), step);
    if (isDone()) return finished();
    for (const bin of best.groups) patterns.add({ stock: bin.stock, counts: bin.counts });
    const limits = task.stocks.map((stock) => stock.limit);
    const mix = await patterns.mix(
      task.pieces.map((piece) => piece.count),
      limits,
      async (_, found) => {
        bound = Math.max(bound, roundedBound(found, step));
        options.progress?.({ cost: best.cost, bound });
        await breathe();
        return isDone() || isStopped();
      },
    );
    if (!isDone()) bound = Math.max(bound, roundedBound(Math.max(mix.bound, mix.boundByPrices()), step));
    if (!isDone() && !isStopped()) await dive(task, patterns, mix.uses, take, () => isDone() || isStopped());
    for (const power of lengthPowers) {
      if (isDone() || isStopped()) break;
      const bins = await fullestFirst(task, power, async () => {
        await breathe();
        return isStopped();
      });
      if (bins === undefined) break;
      take(bins);
      // Patterns without waste serve the integer program too.
      for (const bin of bins) patterns.add(bin);
    }
    const all = isDone() || isStopped() ? undefined : allPatterns(task, mostPatterns);
    for (const bin of all ?? inOtherStock(task, patterns.pool)) patterns.add(bin);
    for (const seconds of options.searchSeconds ?? [1, 3]) {
      if (isDone() || isStopped()) break;
      for (const bin of best.groups) patterns.add({ stock: bin.stock, counts: bin.counts });
      const found = wholePatterns(task, solver, patterns.pool, { seconds, enough: bound, step: step || 1 });
      if (found !== undefined) take(found.bins);
      await breathe();
      if (found?.complete !== true) continue;
      // The best of all patterns there are: nothing costs less.
      if (all !== undefined && uncutUm(task, best) === 0) bound = Math.max(bound, best.cost);
      break;
    }
  }
  return finished();
}

/** Patterns for every other stock that they fit: prices that broke at more packs may have priced those out. */
function inOtherStock(task: CutTask, pool: readonly Bin[]): Bin[] {
  if (pool.length * task.stocks.length > mostPatterns) return [];
  return pool.flatMap((bin) =>
    task.stocks.flatMap((stock, at) =>
      at !== bin.stock && fitsInto(task, bin, stock.lengthUm) ? [{ stock: at, counts: bin.counts }] : [],
    ),
  );
}

/**
 * Whole plans from a mix of parts: what is whole in the mix is fixed (or its largest part, made whole), and
 * the rest is mixed again, until nothing is left. Every step also tries first fit on the rest.
 */
async function dive(
  task: CutTask,
  patterns: Patterns,
  first: readonly number[],
  take: (bins: readonly Bin[]) => void,
  isOver: () => boolean,
): Promise<void> {
  const fixed: Bin[] = [];
  let uses = first;
  for (;;) {
    const { wanting, limits } = restOf(task, fixed);
    const before = fixed.length;
    const order = uses
      .map((use, at) => ({ use, at }))
      .filter(({ use }) => use > 1e-6)
      .sort((one, other) => other.use - one.use || one.at - other.at);
    for (const { use, at } of order) {
      const bin = patterns.pool[at];
      // A hair below a whole number is that number.
      for (let times = Math.floor(use + 1e-6); bin !== undefined && times > 0; times -= 1)
        fix(bin, wanting, limits, fixed);
    }
    const fitted = firstFit(task, fixed);
    take(fitted.groups.flatMap((group) => Array.from({ length: group.times }, () => group)));
    if (fixed.length === before) {
      const bin = patterns.pool[order[0]?.at ?? -1];
      if (bin === undefined || !fix(bin, wanting, limits, fixed)) return;
    }
    if (isOver() || wanting.every((count) => count === 0)) return;
    ({ uses } = await patterns.mix(wanting, limits, async (turn) => {
      await breathe();
      return isOver() || turn > 200;
    }));
  }
}

/** Fixes one use of a pattern, as far as its pieces are still wanted and its stock is there. */
function fix(bin: Bin, wanting: number[], limits: (number | null)[], fixed: Bin[]): boolean {
  const limit = limits[bin.stock];
  if (limit === 0) return false;
  const counts = bin.counts.map((count, piece) => Math.min(count, wanting[piece]!));
  if (counts.every((count) => count === 0)) return false;
  counts.forEach((count, piece) => {
    wanting[piece] = wanting[piece]! - count;
  });
  if (typeof limit === 'number') limits[bin.stock] = limit - 1;
  fixed.push({ stock: bin.stock, counts });
  return true;
}

function restOf(task: CutTask, fixed: readonly Bin[]): { wanting: number[]; limits: (number | null)[] } {
  const wanting = task.pieces.map((piece) => piece.count);
  for (const bin of fixed)
    bin.counts.forEach((count, piece) => {
      wanting[piece] = wanting[piece]! - count;
    });
  const used = unitsByStock(task, fixed);
  const limits = task.stocks.map((stock, at) => (stock.limit === null ? null : stock.limit - used[at]!));
  return { wanting, limits };
}
