import type { Problem } from '../book/problems/problem.ts';
import type { Change } from './words/change.ts';

/** One product in one channel, today and in a scenario. Money in the book's currency, shares as ratios. */
export interface WhatIfPrice {
  readonly product: string;
  readonly channel: string;
  readonly setByHand: boolean;
  readonly today: PriceState;
  /** With today's asking price on the ticket. */
  readonly held: PriceState;
  /**
   * With the asking price that keeps the margin, price endings included: the wanted margin where the price follows
   * it, today's own margin where it is set by hand. Null where fees and margin leave no room for any price.
   */
  readonly kept: PriceState | null;
}

export interface PriceState {
  readonly unitCost: number;
  readonly floor: number;
  readonly asking: number;
  readonly net: number;
  readonly margin: number;
  readonly contribution: number;
  readonly profit: number;
  readonly underFloor: boolean;
}

/** The month of the expected sales mix; null where the book has none. */
export interface MonthState {
  readonly takings: number;
  readonly contribution: number;
  readonly profit: number;
}

export interface WhatIfScenario {
  /** `cord up`, `cord up + new wage`, or the changes themselves where they came from the command line. */
  readonly name: string;
  readonly changes: readonly ChangeReport[];
  /** Changes that are left out, since they begin later than the day for which it was asked. */
  readonly later: readonly ChangeReport[];
  readonly prices: readonly WhatIfPrice[];
  readonly month: { readonly today: MonthState; readonly held: MonthState; readonly kept: MonthState } | null;
  /** What the changed book has to say, where today's does not. */
  readonly problems: readonly Problem[];
}

/** A change and what it did. */
export interface ChangeReport {
  readonly text: string;
  readonly reads: string;
  readonly effect: string;
  /** How to write the other thing that a bare figure may have meant, a per cent: `cord +12 %`; blank where it is clear. */
  readonly otherwise: string;
  readonly from: string;
  readonly cells: number;
}

export interface WhatIfReport {
  readonly workshop: string;
  readonly currency: string;
  readonly channels: readonly string[];
  readonly products: readonly { readonly product: string; readonly family: string }[];
  readonly scenarios: readonly WhatIfScenario[];
}

/** A change with the day from which it holds. */
export interface DatedChange {
  readonly change: Change;
  readonly from: string;
}
