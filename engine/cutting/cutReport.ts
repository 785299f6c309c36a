import type { Order } from './order.ts';

/** Pieces of one length. */
export interface Pieces {
  readonly cutMm: number;
  readonly pieces: number;
}

/** Units of stock that are cut alike. All lengths in millimetres. */
export interface StockCut {
  readonly from: 'on hand' | 'bought';
  /** spool, hank, offcut or box; "pack" where it is bought. */
  readonly kind: string;
  /** The row of the sheet Stock lengths, from 0; null for a pack. */
  readonly stockRow: number | null;
  readonly stockMm: number;
  readonly times: number;
  readonly cuts: readonly Pieces[];
  /** Left over of each. */
  readonly leftMm: number;
  readonly leftIs: 'kept' | 'waste' | 'nothing';
  /** What a millimetre of it cost: its own row of stock.csv, or the pack it was bought in. */
  readonly costPerMm: number;
}

export interface Purchase {
  readonly material: string;
  /** Null for what is sold by the piece. */
  readonly packMm: number | null;
  /** Null for what is sold by length. */
  readonly packPieces: number | null;
  readonly packs: number;
  /** The row of the sheet Packs, from 0, that has the price; null for the material's own pack. */
  readonly packsRow: number | null;
  /** Landed cost of one at this number. */
  readonly costEach: number;
  readonly cost: number;
}

/** How good a figure is: no plan does better than the bound. */
export interface Quality {
  readonly bound: number;
  readonly proven: boolean;
  /** How far the figure may be above the least, as a ratio; null where the bound is zero and the figure is not. */
  readonly gapRatio: number | null;
}

/** The cutting plan of one cord or webbing. Lengths in millimetres, money in the book's currency. */
export interface MaterialCut {
  readonly material: string;
  readonly cuts: readonly (Pieces & {
    readonly for: readonly { readonly product: string; readonly role: string; readonly pieces: number }[];
  })[];
  readonly cutMm: number;
  readonly stock: readonly StockCut[];
  /** Pieces that what is on hand, cut on its own, does not suffice for; packs are bought for them. */
  readonly missing: readonly Pieces[];
  readonly missingMm: number;
  readonly buy: readonly Purchase[];
  readonly buyCost: number;
  readonly buyQuality: Quality;
  /** Pieces longer than any stock and pack: they stay uncut. */
  readonly uncut: readonly Pieces[];
  /** What that cord would cost at the price of the material's own pack. */
  readonly uncutCost: number;
  /** Length of all stock that is cut. */
  readonly openedMm: number;
  readonly openedQuality: Quality;
  readonly keptMm: number;
  /** Of what goes back to stock, at the cost per length of what it was cut from. */
  readonly keptValue: number;
  /** Cord that is gone, by the same costs: what was opened, less what goes back. */
  readonly goneCost: number;
  /** Short ends, and what is lost at the cuts. */
  readonly wasteMm: number;
  /** Share of the cord that is gone after cutting (cut or wasted). */
  readonly wasteRatio: number;
}

/** Fittings of one kind. */
export interface PartNeed {
  readonly material: string;
  readonly pieces: number;
  readonly onHandPieces: number;
  readonly missingPieces: number;
  readonly buy: readonly Purchase[];
  readonly buyCost: number;
}

/** What `cut --json` prints. */
export interface CutReport {
  readonly workshop: string;
  readonly currency: string;
  readonly make: Order;
  readonly keepMm: number;
  /** Lost at every cut. */
  readonly cutLossMm: number;
  /** Why the search ended early, if it did; the plan holds nevertheless. */
  readonly stopped: boolean;
  readonly cords: readonly MaterialCut[];
  readonly parts: readonly PartNeed[];
  readonly shopping: readonly Purchase[];
  readonly shoppingCost: number;
  readonly wasteRatio: number;
  readonly proven: boolean;
  /** True where nothing stays uncut. */
  readonly complete: boolean;
}
