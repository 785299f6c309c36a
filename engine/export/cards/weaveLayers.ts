import type { Card } from './card.ts';
import type { SetUp, Stretch } from './setUp.ts';
import { bandStrokes, type Strokes, stripeStrokes, weaveStrokes } from './weaveStrokes.ts';

/** So much of the weave is left away at the left end, to show what is under it. */
const coreShownMm = 9;
const layerShownMm = 18;

/** A layer of the weave as it is drawn: the first one where others lie on it, or the one on top. */
export interface WeaveLayer {
  readonly which: 'lower' | 'top';
  /** Where it is not covered. */
  readonly seen: Stretch;
  readonly widthMm: number;
  readonly strokes: readonly Strokes[];
}

/** The core as far as it is not covered, and the layers over it, from the inside; up to a place along the piece. */
export interface Cutaway {
  readonly core: Stretch;
  readonly layers: readonly WeaveLayer[];
}

/** Cuts the weave away at its left end, layer by layer; a short piece shows less of each. */
export function cutaway(card: Card, piece: SetUp, toMm: number): Cutaway {
  const fromMm = piece.woven.fromMm;
  const endMm = Math.min(piece.woven.toMm, toMm);
  const third = Math.max(0, endMm - fromMm) / 3;
  const coreToMm = fromMm + (card.coreStrands > 0 ? Math.min(coreShownMm, third) : 0);
  const lowerToMm = coreToMm + (card.layers > 1 ? Math.min(layerShownMm, third) : 0);
  const layer = (which: 'lower' | 'top', seen: Stretch, widthMm: number): WeaveLayer => {
    const woven = {
      // What is covered shows through gaps: it goes on to the end.
      fromMm: seen.fromMm,
      toMm: endMm,
      widthMm,
      diameterMm: card.diameterMm,
      pitchMm: piece.pitchMm,
      angleDegrees: card.angleDegrees,
      overStrands: card.overStrands,
      underStrands: card.underStrands,
      passesOver: card.passesOver,
    };
    const strokes = weaveStrokes(card.weaveFamily, woven);
    if (which === 'lower' || strokes.length === 0) return { which, seen, widthMm, strokes };
    const has = (role: string): number => card.cords.find((cord) => cord.role === role)?.cords ?? 0;
    const laid = [
      ...(has('stripe') > 0 ? [stripeStrokes(woven)] : []),
      ...(has('band') > 0 ? [bandStrokes(woven, has('band'), card.bandKnots ?? 2)] : []),
    ];
    return { which, seen, widthMm, strokes: [...strokes, ...laid] };
  };
  // Each layer lies one cord outside the one under it, on either side.
  const lowerWidthMm = Math.max(card.diameterMm, piece.widthMm - 2 * card.diameterMm * (card.layers - 1));
  return {
    core: { fromMm, toMm: coreToMm },
    layers: [
      ...(card.layers > 1 ? [layer('lower', { fromMm: coreToMm, toMm: lowerToMm }, lowerWidthMm)] : []),
      layer('top', { fromMm: lowerToMm, toMm: endMm }, piece.widthMm),
    ],
  };
}

/** The role whose cord a layer shows: upper layers may have cords of their own. */
export function roleOf(card: Card, cord: Strokes['cord'], which: 'lower' | 'top'): string {
  const upper = `upper ${cord}`;
  return which === 'top' && card.cords.some(({ role }) => role === upper) ? upper : cord;
}

/**
 * Across the piece, where the middle of each core strand lies: side by side, within what is woven round them. In
 * a zig-zag the working cord passes between them.
 */
export function corePlaces(card: Card, piece: SetUp): readonly number[] {
  const apart = card.weaveFamily === 'zig-zag' ? 2 : 1;
  const gaps = card.coreStrands - 1;
  const inside = piece.widthMm - 2 * card.diameterMm * card.layers - card.coreDiameterMm;
  const step = gaps > 0 ? Math.min(card.coreDiameterMm * apart, Math.max(0, inside) / gaps) : 0;
  return Array.from({ length: card.coreStrands }, (_, at) => (at - gaps / 2) * step);
}
