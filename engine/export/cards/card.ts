import type { Problem } from '../../book/problems/problem.ts';

/** One kind of cord to cut for a product. Lengths in millimetres. */
export interface CardCord {
  readonly role: string;
  /** The material, as the book calls it. */
  readonly cord: string;
  readonly name: string;
  /** As the maker wrote it; blank where nothing is written. */
  readonly colour: string;
  readonly diameterMm: number | null;
  /** How many are cut to this length for one piece. */
  readonly cords: number;
  readonly strandsInEach: number;
  readonly cutMm: number;
  readonly wovenMm: number;
  readonly hitchedMm: number;
  readonly joinedMm: number;
  /** In end knots, loops and splices. */
  readonly inEndsMm: number;
  /** Against running short. */
  readonly extraMm: number;
  readonly spareMm: number;
  readonly trimMm: number;
  readonly batchCords: number;
  readonly batchCordMm: number;
}

/** A fitting, or a length of webbing or cord that is no working cord. */
export interface CardPart {
  readonly material: string;
  readonly name: string;
  readonly measuredBy: 'piece' | 'length';
  /** Pieces, or millimetres where it is measured by length. */
  readonly quantity: number;
  readonly batchQuantity: number;
}

/** A knot, loop, splice or whipping at an end of the piece. */
export interface CardEnd {
  readonly where: string;
  readonly end: string;
  readonly name: string;
  readonly count: number;
  readonly sizeMm: number | null;
  /** The role of the cord that it is made in. */
  readonly role: string;
}

export interface CardStep {
  readonly step: string;
  readonly minutesPerBatch: number;
  readonly minutesPerPiece: number;
  /** For each length unit of the book that is woven. */
  readonly minutesPerLength: number;
}

/** What the bench must know of one product. Null where the book's sheets do not say. */
export interface Card {
  readonly product: string;
  readonly name: string;
  readonly family: string;
  readonly size: string;
  readonly weave: string;
  readonly weaveName: string;
  readonly weaveFamily: string;
  readonly layers: number;
  /** How many layers a piece of this family can have. */
  readonly mostLayers: number;
  readonly numbers: 'measured' | 'estimated';
  /** Length of one half knot, turn or bight, in diameters of the cord. */
  readonly pitchRatio: number | null;
  readonly angleDegrees: number | null;
  readonly overStrands: number;
  readonly underStrands: number;
  /** How many strands each strand of a braid passes over before it goes under. */
  readonly passesOver: number;
  readonly coreStrands: number;
  /** The cord that all is drawn with: the over cord's. */
  readonly diameterMm: number;
  readonly coreDiameterMm: number;
  readonly finishedMm: number | null;
  readonly hardwareMm: number;
  readonly webbingMm: number;
  readonly wovenMm: number;
  readonly widthMm: number | null;
  readonly thicknessMm: number | null;
  /** Half knots, turns or bights, in one layer, before rounding; null where none are counted. */
  readonly knots: number | null;
  /** Half knots to tie in each layer: the even number nearest to that; null where no half knots are tied. */
  readonly halfKnotsToTie: number | null;
  /** What these are called; blank where none are counted. */
  readonly counted: string;
  /** The least and the greatest body measure that the piece closes round; null where it closes round none. */
  readonly fitsFromMm: number | null;
  readonly fitsToMm: number | null;
  readonly hitches: number;
  readonly hardwareBarMm: number | null;
  readonly slotWidthMm: number | null;
  readonly strandsAcross: number | null;
  /** Half knots to a stitch of the band; null where there is none. */
  readonly bandKnots: number | null;
  readonly cords: readonly CardCord[];
  readonly ends: readonly CardEnd[];
  readonly parts: readonly CardPart[];
  readonly steps: readonly CardStep[];
  readonly weightG: number | null;
  /** Where the weight comes from, such as "weighed" or "incomplete". */
  readonly weightFrom: string;
  readonly minutesPerPiece: number;
  readonly batchSize: number;
  readonly batchMinutes: number;
  /** Whether the batch was asked for, and is not just the product's usual one. */
  readonly asked: boolean;
}

/** What `cards --json` prints, and what the page is made of. */
export interface CardReport {
  readonly workshop: string;
  readonly lengthUnit: 'in' | 'cm' | 'mm';
  readonly cards: readonly Card[];
  readonly cautions: readonly { readonly about: string; readonly says: string }[];
  readonly problems: readonly Problem[];
}
