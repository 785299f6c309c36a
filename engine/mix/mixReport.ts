/** A product in a channel, in the best mix of a month. Money in the book's currency. */
export interface MixRow {
  readonly product: string;
  readonly channel: string;
  readonly contributionEach: number;
  readonly benchHoursEach: number;
  /** Pieces expected a month (`sales_mix.csv`); null where the pair is not in it. */
  readonly expected: number | null;
  readonly atLeast: number;
  /** Null where there is no limit. */
  readonly atMost: number | null;
  /** Pieces of the best mix, in fractions. */
  readonly best: number;
  /** Pieces of the best whole mix; null where there is none. */
  readonly bestWhole: number | null;
  /** Contribution of one piece less the worth of all that it takes: below nothing, by so much each would have to bring more. */
  readonly reducedWorth: number;
  /** What one more of `atMost` would add; zero where that does not bind. */
  readonly worthOfOneMoreSold: number;
  /** What one fewer promised would add; zero where that does not bind. */
  readonly worthOfOneLessPromised: number;
}

/** Something of which there is only so much. */
export interface MixLimitReport {
  readonly kind: 'bench hours' | 'material';
  readonly name: string;
  /** `h`, the book's cord unit, or `pieces`. */
  readonly unit: string;
  readonly available: number;
  /** Taken by the best mix in fractions. */
  readonly taken: number;
  /** Taken by the best whole mix; null where there is none. */
  readonly takenWhole: number | null;
  /** Dual price: what a little more adds to the contribution, for one unit. Zero where some is left. */
  readonly worthEach: number;
  /** What one whole unit more adds, from a second search; less than `worthEach` where something else soon binds. */
  readonly worthOfOneMore: number;
}

/** What a mix brings. */
export interface MixTotal {
  readonly contribution: number;
  /** Contribution less the overhead of the month; before profit tax. */
  readonly profit: number;
  readonly benchHours: number;
}

/** What `mix --json` prints. */
export interface MixReport {
  readonly workshop: string;
  /** ISO 4217 code of every amount. */
  readonly currency: string;
  readonly overheadPerMonth: number;
  readonly labourPerHour: number;
  readonly rows: readonly MixRow[];
  readonly limits: readonly MixLimitReport[];
  readonly best: MixTotal;
  /** Proven: no whole mix contributes a coin more. Null where fractions leave no whole mix. */
  readonly bestWhole: (MixTotal & { readonly proven: boolean }) | null;
  /** The expected sales of `sales_mix.csv`, as the sheet Month has them; null without that table. */
  readonly expected: MixTotal | null;
}
