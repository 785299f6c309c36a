/**
 * One-dimensional cutting: pieces of given lengths out of stock of given lengths. Lengths are whole
 * micrometres, in which cuts to an eighth of an inch or a tenth of a millimetre are exact, so that whether
 * pieces fit is never a question of rounding.
 */
export interface PieceType {
  readonly lengthUm: number;
  readonly count: number;
  readonly label: string;
}

/** What one unit of stock costs where at least so many are taken. */
export interface Tier {
  readonly fromPacks: number;
  /** A whole number, such as money in its smallest coin. */
  readonly costEach: number;
}

export interface StockType {
  readonly lengthUm: number;
  /** How many there are; null where any number can be bought. */
  readonly limit: number | null;
  readonly tiers: readonly Tier[];
  readonly label: string;
}

export interface CutTask {
  readonly pieces: readonly PieceType[];
  readonly stocks: readonly StockType[];
  /** Lost at every cut, such as the width of a blade; zero for cord. A piece that ends with its stock needs no cut. */
  readonly kerfUm: number;
}

/** One unit of stock and how many of each piece are cut from it (by the piece's place in the task). */
export interface Bin {
  readonly stock: number;
  readonly counts: readonly number[];
}

/** Bins that are cut alike. */
export interface BinGroup extends Bin {
  readonly times: number;
}

export interface CutPlan {
  readonly groups: readonly BinGroup[];
  /** Pieces that no stock is left for, by the piece's place in the task. */
  readonly uncut: readonly number[];
  /** Of all stock taken, with the packs that are bought more than needed for the sake of a price break. */
  readonly cost: number;
}

/** Length that the pieces of a bin take, cuts included; the last cut is saved where nothing is left over. */
export function takenUm(task: CutTask, bin: Bin): number {
  let sum = 0;
  for (let piece = 0; piece < bin.counts.length; piece += 1)
    sum += bin.counts[piece]! * (task.pieces[piece]!.lengthUm + task.kerfUm);
  return sum;
}

/** What is left of a bin's stock. */
export function leftUm(task: CutTask, bin: Bin): number {
  return Math.max(0, task.stocks[bin.stock]!.lengthUm - takenUm(task, bin));
}

/** Whether the bin's pieces fit into a stock of that length. */
export function fitsInto(task: CutTask, bin: Bin, lengthUm: number): boolean {
  return takenUm(task, bin) <= lengthUm + task.kerfUm;
}

/** Tells a search to end early with the best that it has; an `AbortSignal` is one. */
export interface StopSignal {
  readonly aborted: boolean;
}
