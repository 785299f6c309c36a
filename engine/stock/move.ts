import type { Place } from '../book/problems/problem.ts';
import type { Exact } from '../money/exact.ts';

/** Why a quantity comes or goes. */
export const moveKinds = [
  'opening', // brought forward, with its value
  'bought',
  'returned to supplier',
  'made', // finished pieces
  'used', // of a material, into pieces
  'waste', // spoiled, or beyond what pieces normally take
  'sample',
  'gift',
  'own use',
  'other',
  'sold',
  'returned by buyer',
  'counted', // what a stocktake found more or less
  'revalued', // what a stocktake says it is worth now
  'correction', // what was taken before it was there cost another sum in the end
] as const;

export type MoveKind = (typeof moveKinds)[number];

/** A movement of one item before it has a value. */
export interface Move {
  readonly day: number;
  /** The name of a material or product, as its table spells it. */
  readonly item: string;
  readonly what: MoveKind;
  /** In is positive, out negative; nothing for a change of value. */
  readonly quantity: Exact;
  /** In smallest coins: what comes with a cost of its own; of a return to the supplier what was paid back (negative). */
  readonly ownCoins?: number;
  /** For `revalued`: what all that is there is worth, in smallest coins. */
  readonly worthCoins?: number;
  /** What a return is of: the invoice, or the channel. */
  readonly origin: string;
  /** Supplier, channel, or the product that a material went into. */
  readonly partner: string;
  readonly place: Place;
}

export interface ValuedMove extends Move {
  /** What stock gains (positive) or loses (negative) by it, in smallest coins. */
  readonly valueCoins: number;
}

/** Days on which more left than was there. */
export interface Shortage {
  readonly item: string;
  readonly day: number;
  /** How far stock is below nothing after the movement. */
  readonly below: Exact;
  readonly place: Place;
}

export type StockMethod = 'average' | 'first in first out';
export type StockTiming = 'perpetual' | 'periodic';

/** The order of one day: what comes in is there before what goes out, and what is counted is counted in the evening. */
const dayOrder: Readonly<Record<MoveKind, number>> = Object.freeze({
  opening: 0,
  bought: 1,
  'returned to supplier': 2,
  used: 3,
  made: 4,
  'returned by buyer': 5,
  sold: 6,
  waste: 7,
  sample: 7,
  gift: 7,
  'own use': 7,
  other: 7,
  counted: 8,
  revalued: 9,
  correction: 10,
});

/** Movements by day, within a day by kind, and otherwise as given. */
export function inDayOrder<Some extends Move>(moves: readonly Some[]): Some[] {
  return [...moves].sort((one, other) => one.day - other.day || dayOrder[one.what] - dayOrder[other.what]);
}
