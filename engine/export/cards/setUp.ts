import type { Card } from './card.ts';

/** A stretch along the piece, in millimetres from its left end. */
export interface Stretch {
  readonly fromMm: number;
  readonly toMm: number;
}

/** Where everything lies along the piece, as it is drawn. */
export interface SetUp {
  readonly lengthMm: number;
  readonly woven: Stretch;
  /** Hardware, and webbing with it, at the left end, and at the right one where there is some. */
  readonly hardware: readonly Stretch[];
  /** How wide the woven part is drawn; a guess where the sheets do not say, and the drawing then says so. */
  readonly widthMm: number;
  /** From half knot, turn or bight to the next, in millimetres; null where the sheets do not say. */
  readonly pitchMm: number | null;
}

/**
 * Lays out a card's piece. The book says what hardware adds to the length, not where: it is drawn half at each
 * end, or all at the left one where there is only one hitch.
 */
export function setUp(card: Card): SetUp {
  const hardwareMm = card.hardwareMm + card.webbingMm;
  const oneEnded = card.hitches === 1;
  const leftMm = oneEnded ? hardwareMm : hardwareMm / 2;
  const rightMm = hardwareMm - leftMm;
  const woven = { fromMm: leftMm, toMm: leftMm + card.wovenMm };
  // A woven length that was set by hand may leave bare cord, or be longer than it should be.
  const lengthMm = Math.max(card.finishedMm ?? 0, woven.toMm + rightMm);
  const hardware = [
    { fromMm: 0, toMm: leftMm },
    { fromMm: lengthMm - rightMm, toMm: lengthMm },
  ].filter(({ fromMm, toMm }) => toMm - fromMm > 0.1);
  const strands = Math.max(card.coreStrands, card.overStrands + card.underStrands, 2);
  return {
    lengthMm,
    woven,
    hardware,
    widthMm: card.widthMm ?? strands * card.diameterMm,
    pitchMm: pitchMm(card),
  };
}

function pitchMm(card: Card): number | null {
  if (card.knots !== null && card.knots > 0) return card.wovenMm / card.knots;
  return card.pitchRatio === null ? null : card.pitchRatio * card.diameterMm;
}
