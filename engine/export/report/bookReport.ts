import type { Settings } from '../../book/settings.ts';
import type { SensitivityLine } from '../../whatif/sweeps/sensitivity.ts';
import type { WhatIfReport } from '../../whatif/whatIf.ts';
import type { FoundResult } from '../../whatif/words/findResults.ts';
import type { PriceReport } from '../answers/priceReport.ts';
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

/** Inputs ranked by what they do to one result, as `sennit sensitivity` ranks them. */
export interface Sensitivity {
  readonly result: FoundResult;
  /** The common range as a ratio: 0.1 is 10 %. */
  readonly range: number;
  readonly today: number;
  /** The greatest effect first. */
  readonly lines: readonly SensitivityLine[];
}

/** Everything that the page shows, as plain data; what a book does not have is null. */
export interface BookReport {
  readonly settings: Settings;
  readonly prices: PriceReport;
  readonly costs: readonly CostParts[];
  readonly month: MonthFigures | null;
  /** Null where no overhead is to be paid. */
  readonly breakEven: readonly BreakEven[] | null;
  /** Of the month's profit, or of the least margin in a book without expected sales; null where nothing is priced. */
  readonly sensitivity: Sensitivity | null;
  readonly scenarios: WhatIfReport | null;
  readonly live: Live | null;
}
