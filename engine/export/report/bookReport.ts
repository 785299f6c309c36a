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
  readonly overhead: number | null;
  readonly profit: number;
}

/** Everything that the page shows, as plain data; what a book does not have is null. */
export interface BookReport {
  readonly settings: Settings;
  readonly prices: PriceReport;
  readonly costs: readonly CostParts[];
  readonly month: MonthFigures | null;
  readonly scenarios: WhatIfReport | null;
  readonly live: Live | null;
}
