import type { Place } from '../book/problems/problem.ts';

/** A product in a channel that may be made, and what the sheets say of one piece. */
export interface MixItem {
  readonly product: string;
  readonly channel: string;
  /** What one piece more brings, in the book's currency (`prices.contribution`); labour is paid from it. */
  readonly contributionEach: number;
  /** Bench hours of one piece (`costs.bench_hours`). */
  readonly hoursEach: number;
  /** Pieces a month that are expected to sell; null where `sales_mix.csv` does not have the pair. */
  readonly expected: number | null;
  /** Pieces promised a month. */
  readonly atLeast: number;
  /** More would not be bought; infinite where there is no limit. */
  readonly atMost: number;
  /** Where it stands in the book. */
  readonly place: Place;
}

/** Something of which a month has only so much. */
export interface MixLimit {
  readonly kind: 'bench hours' | 'material';
  /** The material, or `bench hours`. */
  readonly name: string;
  /** `h`, a cord unit, or `pieces`. */
  readonly unit: string;
  readonly available: number;
  /** What one piece of each item takes of it, in the order of the items. */
  readonly takenByEach: readonly number[];
}

/** Find pieces of each item, between `atLeast` and `atMost` and within every limit, that contribute most. */
export interface MixTask {
  readonly items: readonly MixItem[];
  readonly limits: readonly MixLimit[];
}

/** Pieces of each item of a task, and what each limit is worth there. */
export interface MixSolution {
  readonly pieces: readonly number[];
  readonly contribution: number;
  /** By limit: what a little more of it would add to the contribution, for one unit; zero where some is left. */
  readonly worth: readonly number[];
  /** By item: its contribution less the worth of all that it takes. */
  readonly reduced: readonly number[];
}

/** How much of a limit these pieces take. */
export function takenOf(limit: MixLimit, pieces: readonly number[]): number {
  return pieces.reduce((sum, each, at) => sum + each * limit.takenByEach[at]!, 0);
}

/** What these pieces contribute. */
export function contributionOf(items: readonly MixItem[], pieces: readonly number[]): number {
  return pieces.reduce((sum, each, at) => sum + each * items[at]!.contributionEach, 0);
}
