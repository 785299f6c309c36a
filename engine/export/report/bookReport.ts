import type { Settings } from '../../book/settings.ts';
import type { WhatIfReport } from '../../whatif/whatIf.ts';
import type { PriceReport } from '../priceReport.ts';
import type { Live } from './live/livePrograms.ts';

/** What a product's materials are made of. Money in the book's currency, unrounded. */
export interface CostParts {
  readonly product: string;
  /** Cord and webbing cut for it, what is cut away included. */
  readonly cords: number;
  readonly parts: number;
}

/** The month of the expected sales mix. Money in the book's currency. */
export interface MonthFigures {
  readonly takings: number;
  readonly contribution: number;
  readonly overhead: number;
  readonly profit: number;
  readonly benchHours: number;
  readonly benchHoursThere: number;
  /** Of the expected sales (0.6 is 60 %), where nothing is lost and nothing earned; null where no number of sales does it. */
  readonly breakEvenRatio: number | null;
  readonly breakEvenTakings: number | null;
  /** Takings that earn the profit wanted, tax on it paid. */
  readonly wantedTakings: number | null;
}

/** How many of one product, sold in one channel and alone, pay the month's overhead. */
export interface BreakEven {
  readonly product: string;
  readonly channel: string;
  readonly contributionEach: number;
  /** Null where a piece contributes nothing. */
  readonly piecesWhole: number | null;
  readonly benchHours: number | null;
  readonly withinHours: boolean;
}

/** What one group of inputs does to the measure, going down and up by the same share. Money in the book's currency. */
export interface TornadoBar {
  /** What the group is called: `Wage`, `Price of cord`. */
  readonly name: string;
  readonly down: number;
  readonly up: number;
}

export interface Tornado {
  /**
   * `month`: profit of the month of expected sales. `pieces`: contribution of one piece of every product in every
   * channel, for a book without expected sales.
   */
  readonly measure: 'month' | 'pieces';
  /** The share by which each group goes up and down: 0.1 is 10 %. */
  readonly byRatio: number;
  readonly today: number;
  /** Widest first. */
  readonly bars: readonly TornadoBar[];
}

/** Everything that the page shows, as plain data; what a book does not have is null. */
export interface BookReport {
  readonly settings: Settings;
  readonly prices: PriceReport;
  readonly costs: readonly CostParts[];
  readonly month: MonthFigures | null;
  /** Null where no overhead is to be paid. */
  readonly breakEven: readonly BreakEven[] | null;
  readonly tornado: Tornado;
  readonly scenarios: WhatIfReport | null;
  readonly live: Live | null;
}
