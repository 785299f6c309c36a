import type { LateFact } from './lateFacts.ts';

/**
 * What happened in a month, as the book and the stock method say it: what was found and no formula can say. Amounts
 * are whole numbers of the smallest coin; days are as spreadsheets count them.
 */
export interface MonthFacts {
  readonly channels: readonly ChannelFact[];
  readonly sales: readonly SaleFact[];
  readonly purchases: readonly PurchaseFact[];
  readonly charges: readonly ChargeFact[];
  readonly materials: readonly MaterialFact[];
  readonly products: readonly ProductFact[];
  readonly taken: readonly TakenFact[];
  /** What has changed in closed months beside stock. */
  readonly late: readonly LateFact[];
  readonly lateLines: readonly LateLine[];
  readonly variances: readonly VarianceFact[];
}

/** A line of a closed month's journal that is another one by the book of today; null where there was or is none. */
export interface LateLine {
  /** In words, such as October 2026. */
  readonly month: string;
  /** The entry by its day and text, such as “2026-10-02, Freight for invoice CM 118”. */
  readonly entry: string;
  readonly posting: string;
  /** Blank where the posting is of no channel. */
  readonly channel: string;
  readonly side: 'debit' | 'credit';
  readonly closedCoins: number | null;
  readonly nowCoins: number | null;
}

/** How a channel's takings are to be read. */
export interface ChannelFact {
  readonly channel: string;
  readonly includesTax: boolean;
  readonly taxRatio: number;
  /** Shares of the net price and of the price with tax, and money a piece. */
  readonly feeOnNet: number;
  readonly feeOnGross: number;
  readonly feeFixed: number;
  readonly piecesPerOrder: number;
  /** Money, an order. */
  readonly postagePaid: number;
}

export interface SaleFact {
  readonly day: number;
  readonly channel: string;
  readonly product: string;
  readonly receipt: string;
  readonly pieces: number;
  readonly takingsCoins: number;
  /** Null where it follows from the channel's rate. */
  readonly taxCoins: number | null;
  /** Null where they follow from what the channel takes. */
  readonly feesCoins: number | null;
  readonly costCoins: number;
}

export interface PurchaseFact {
  readonly day: number;
  readonly invoice: string;
  readonly supplier: string;
  readonly material: string;
  /** In the measure of the material; negative for what went back. */
  readonly quantity: number;
  /** In `currency`, as money. */
  readonly amount: number;
  /** Null where it was worked out from the tax of the material that is not reclaimed. */
  readonly tax: number | null;
  readonly taxCoins: number;
  readonly currency: string;
  readonly rate: number;
  /** Where the rate is from, in words. */
  readonly rateFrom: string;
  readonly isReclaimed: boolean;
  readonly freightCoins: number;
  readonly dutyCoins: number;
  readonly otherCoins: number;
  /** What stock gained or lost by the line; for a return it may be another sum than was paid back. */
  readonly stockCoins: number;
}

/** Freight, duty and the like, which were shared out over purchases. */
export interface ChargeFact {
  /** In the month of the goods; where the bill is of another one, the day of it nearest by. */
  readonly day: number;
  /** Of the bill itself. */
  readonly billDay: number;
  /** Of the goods. */
  readonly invoice: string;
  /** Whoever billed it, and the number of that bill; blank where it has none of its own. */
  readonly supplier: string;
  readonly bill: string;
  readonly what: string;
  readonly splitBy: string;
  readonly amount: number;
  /** In the same currency; null where the bill says nothing of it. */
  readonly tax: number | null;
  readonly isReclaimed: boolean;
  readonly currency: string;
  readonly rate: number;
  readonly rateFrom: string;
}

/** Stock of an item at the month's ends, and what the movements do not say line by line. */
interface ItemFact {
  /** Of a month after a closed one: as that was closed. */
  readonly openingQuantity: number;
  readonly openingCoins: number;
  /** Movements of the month that left less than nothing. */
  readonly timesBelow: number;
  /** By how much the history of closed months has moved since they were closed. */
  readonly lateQuantity: number;
  readonly lateCoins: number;
  readonly countedQuantity: number;
  readonly countedCoins: number;
  /** What was taken before it was there, and cost another sum in the end. */
  readonly correctedCoins: number;
  readonly closingQuantity: number;
  readonly closingCoins: number;
}

export interface MaterialFact extends ItemFact {
  readonly material: string;
  readonly unit: string;
  readonly usedQuantity: number;
  readonly usedCoins: number;
}

export interface ProductFact extends ItemFact {
  readonly product: string;
  readonly madeQuantity: number;
  readonly materialsCoins: number;
  readonly labourCoins: number;
  readonly overheadCoins: number;
}

/** How far cost was from plan, and why; money in the book's currency, positive above plan. */
export interface VarianceFact {
  readonly of: string;
  readonly name: string;
  readonly price: number;
  readonly usage: number;
  readonly lost: number;
  readonly wageRate: number;
  readonly efficiency: number;
  readonly overhead: number;
}

/** What left the shelf otherwise than into pieces or by a sale. */
export interface TakenFact {
  readonly day: number;
  readonly item: string;
  readonly stock: 'materials' | 'finished goods';
  readonly reason: string;
  readonly quantity: number;
  readonly valueCoins: number;
}
