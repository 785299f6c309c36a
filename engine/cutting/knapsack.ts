import type { CutTask } from './task.ts';

/** Beyond so many steps of length the exact table would be slow, and a coarser one stands in for it. */
const mostSteps = 50_000;

/** Lengths in whole steps. Exact, or rounded so that every packing fits (`tight`) or none is missed (`loose`). */
interface Grid {
  readonly weights: readonly number[];
  readonly rooms: readonly number[];
}

/** The most valuable cut of every stock for given values of the pieces. */
export interface Pricing {
  /** How many of each piece, for each stock. */
  readonly counts: readonly (readonly number[])[];
  /** No cut of that stock is worth more than this. */
  readonly mostWorth: readonly number[];
}

/**
 * Bounded integer knapsacks over all stocks at once, by a table over length (dynamic programming). Lengths
 * are reckoned in their greatest common step: inches cut to the inch from a thousand feet are 12,000 steps.
 * Where there are more than 50,000, two coarser tables bracket the answer, so that bounds stay valid.
 */
export class Knapsack {
  readonly #tight: Grid;
  readonly #loose: Grid | undefined;
  readonly #parts: { piece: number; times: number }[] = [];
  readonly #taken: Uint8Array[] = [];
  readonly #best: Float64Array;

  constructor(task: CutTask) {
    const sizes = task.pieces.map((piece) => piece.lengthUm + task.kerfUm);
    const rooms = task.stocks.map((stock) => stock.lengthUm + task.kerfUm);
    const longest = Math.max(0, ...rooms);
    const step = sizes.reduce(commonStep, 0) || 1;
    const coarse = Math.ceil(longest / mostSteps);
    if (longest / step <= mostSteps) {
      this.#tight = {
        weights: sizes.map((size) => size / step),
        rooms: rooms.map((room) => Math.floor(room / step)),
      };
    } else {
      const down = (lengths: number[]): number[] => lengths.map((each) => Math.floor(each / coarse));
      this.#tight = { weights: sizes.map((size) => Math.ceil(size / coarse)), rooms: down(rooms) };
      this.#loose = { weights: down(sizes), rooms: down(rooms) };
    }
    // 13 of a piece are offered as 1, 2, 4 and 6, which make every number up to 13.
    task.pieces.forEach(({ count }, piece) => {
      let rest = Math.min(count, Math.floor(longest / Math.max(1, sizes[piece]!)));
      for (let times = 1; rest > 0; times *= 2) {
        this.#parts.push({ piece, times: Math.min(times, rest) });
        rest -= Math.min(times, rest);
      }
    });
    const cells = Math.max(0, ...this.#tight.rooms) + 1;
    this.#best = new Float64Array(cells);
    for (let part = 0; part < this.#parts.length; part += 1) this.#taken.push(new Uint8Array(cells));
  }

  price(values: readonly number[]): Pricing {
    const pieces = values.length;
    this.#fill(values, this.#tight.weights);
    const counts = this.#tight.rooms.map((room) => this.#read(room, pieces));
    let mostWorth = this.#tight.rooms.map((room) => this.#best[room]!);
    if (this.#loose !== undefined) {
      this.#fill(values, this.#loose.weights);
      mostWorth = this.#loose.rooms.map((room) => this.#best[room]!);
    }
    return { counts, mostWorth };
  }

  #fill(values: readonly number[], weights: readonly number[]): void {
    const best = this.#best.fill(0);
    this.#parts.forEach(({ piece, times }, part) => {
      const taken = this.#taken[part]!;
      taken.fill(0);
      const worth = values[piece]! * times;
      const weight = weights[piece]! * times;
      if (worth <= 0) return;
      for (let room = best.length - 1; room >= weight; room -= 1) {
        const worthWith = best[room - weight]! + worth;
        if (worthWith > best[room]!) {
          best[room] = worthWith;
          taken[room] = 1;
        }
      }
    });
  }

  #read(room: number, pieces: number): number[] {
    const counts = new Array<number>(pieces).fill(0);
    let left = room;
    for (let part = this.#parts.length - 1; part >= 0; part -= 1) {
      if (this.#taken[part]?.[left] !== 1) continue;
      const { piece, times } = this.#parts[part]!;
      counts[piece] = counts[piece]! + times;
      left -= times * this.#tight.weights[piece]!;
    }
    return counts;
  }
}

/** Greatest common divisor. */
export function commonStep(one: number, other: number): number {
  let [a, b] = [Math.abs(one), Math.abs(other)];
  while (b > 0) [a, b] = [b, a % b];
  return a;
}
