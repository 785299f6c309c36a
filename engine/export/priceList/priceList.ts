/**
 * A price list as it is handed to customers. It holds what they may see and has no room for anything else: whoever
 * draws one (as a page, a workbook or CSV) gets this and not the book, so that no cost can get into it.
 */
export interface PriceList {
  readonly workshop: string;
  /** A line sheet is for buyers that a discount off the list price is given to. */
  readonly kind: 'price list' | 'line sheet';
  /** The channel as customers know it; blank where it has no name. */
  readonly channel: string;
  /** ISO date. */
  readonly validFrom: string;
  /** ISO 4217 code of every amount. */
  readonly currency: string;
  readonly tax: ListedTax;
  /** What is taken off the list prices: 0.45 is 45 %; null in a price list. */
  readonly tradeDiscount: number | null;
  /** Of goods, as the buyer pays them; null where there is none. */
  readonly leastOrder: number | null;
  /** Delivery, payment and the like, as the maker wrote it. */
  readonly terms: string;
  /** From how many pieces other prices hold, in rising order. */
  readonly breaksFrom: readonly number[];
  readonly families: readonly ListedFamily[];
  readonly cautions: readonly { readonly about: string; readonly says: string }[];
}

/** How the prices stand to tax. */
export interface ListedTax {
  /** As customers know it: `sales tax`. */
  readonly name: string;
  readonly included: boolean;
  /** Share of the price before tax: 0.2 is 20 %. */
  readonly ratio: number;
}

export interface ListedFamily {
  /** Blank where the book has no families. */
  readonly family: string;
  readonly products: readonly ListedProduct[];
}

export interface ListedProduct {
  readonly name: string;
  readonly description: string;
  /** Sizes that follow each other and cost the same stand together. */
  readonly prices: readonly ListedPrice[];
}

export interface ListedPrice {
  readonly sizes: readonly ListedSize[];
  /** What the trade discount comes off; null in a price list. */
  readonly listPrice: number | null;
  /** What the buyer of one pays. */
  readonly price: number;
  /** What the buyer of as many as each of `breaksFrom` pays for each; never more than for fewer. */
  readonly breakPrices: readonly number[];
}

export interface ListedSize {
  /** Blank where the product has one size and no word for it. */
  readonly size: string;
  /** The body measures that it is made for; null where it closes round nothing. */
  readonly fitsFromMm: number | null;
  readonly fitsToMm: number | null;
}
