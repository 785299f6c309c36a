import type { Card } from './card.ts';
import { drawCords, tintOf } from './drawCord.ts';
import type { SetUp, Stretch } from './setUp.ts';
import { mm } from './svg.ts';
import { corePlaces, cutaway, roleOf } from './weaveLayers.ts';
import type { Point } from './weaveStrokes.ts';

/** Where the drawing stands on the paper, and how much smaller than the piece it is. */
export interface View {
  /** Of the piece's left end, in millimetres of paper. */
  readonly xMm: number;
  /** Of its middle line. */
  readonly yMm: number;
  /** Millimetres of the piece for one of paper. */
  readonly scale: number;
  /** Draw up to here, in millimetres of the piece. */
  readonly toMm: number;
  /** Draw the cords of the weave, and not just its outline. */
  readonly weave: boolean;
}

/** The piece from its left end: hardware, core, and the woven part to scale. */
export function drawPiece(card: Card, piece: SetUp, view: View): string {
  const x = (alongMm: number): number => view.xMm + alongMm / view.scale;
  const scaled = (line: readonly Point[]): Point[] =>
    line.map(([along, across]) => [x(along), view.yMm + across / view.scale]);
  const layers = view.weave ? cutaway(card, piece, view.toMm).layers : [];
  const isDrawn = layers.some(({ strokes }) => strokes.length > 0);
  const endMm = Math.min(piece.woven.toMm, view.toMm);
  const barMm = card.hitches > 0 ? (card.hardwareBarMm ?? 0) : 0;
  const coreShown = [
    ...(isDrawn ? [{ fromMm: Math.max(0, piece.woven.fromMm - barMm / 2), toMm: endMm }] : []),
    ...bareStretches(piece, view.toMm),
  ];
  return [
    ...piece.hardware
      .filter(({ fromMm }) => fromMm < view.toMm)
      .map((stretch, at) => hardware(card, piece, view, stretch, at === 0)),
    // One by one: strands of a bundle lie on each other.
    ...coreShown.flatMap(({ fromMm, toMm }) =>
      corePlaces(card, piece).map((across) => {
        const line = scaled([
          [fromMm, across],
          [toMm, across],
        ]);
        return drawCords([line], tintOf(card, 'core'), card.coreDiameterMm / view.scale, 'butt');
      }),
    ),
    `<rect class="${isDrawn ? 'outline' : 'band'}" x="${mm(x(piece.woven.fromMm))}" y="${mm(view.yMm - piece.widthMm / 2 / view.scale)}" width="${mm((endMm - piece.woven.fromMm) / view.scale)}" height="${mm(piece.widthMm / view.scale)}"/>`,
    ...layers.flatMap(({ which, strokes }) =>
      strokes.map(({ cord, ends, lines }) =>
        drawCords(
          lines.map(scaled),
          tintOf(card, roleOf(card, cord, which)),
          card.diameterMm / view.scale,
          ends,
        ),
      ),
    ),
  ].join('\n');
}

/** Bare cord between the woven part and the hardware, where the woven length was set shorter than it could be. */
function bareStretches(piece: SetUp, toMm: number): readonly Stretch[] {
  const right = piece.hardware.find(({ fromMm }) => fromMm >= piece.woven.toMm);
  const endMm = right?.fromMm ?? piece.lengthMm;
  return endMm - piece.woven.toMm > 0.5 && toMm > piece.woven.toMm
    ? [{ fromMm: piece.woven.toMm, toMm: endMm }]
    : [];
}

/** A body of no particular shape, and the bar that hitches lie on, to scale and next to the woven part. */
function hardware(card: Card, piece: SetUp, view: View, stretch: Stretch, isLeft: boolean): string {
  const x = (alongMm: number): number => view.xMm + alongMm / view.scale;
  const across = (card.slotWidthMm ?? piece.widthMm) / view.scale;
  const lengthMm = (stretch.toMm - stretch.fromMm) / view.scale;
  const upright = `y="${mm(view.yMm - across / 2 - 1)}" height="${mm(across + 2)}"`;
  const body = `<rect class="hardware" x="${mm(x(stretch.fromMm))}" ${upright} width="${mm(lengthMm)}" rx="${mm(Math.min(2, lengthMm / 4))}"/>`;
  const barMm = Math.min(card.hardwareBarMm ?? 0, stretch.toMm - stretch.fromMm);
  if (card.hitches === 0 || barMm <= 0) return body;
  const barX = isLeft ? stretch.toMm - barMm : stretch.fromMm;
  return `${body}<rect class="bar" x="${mm(x(barX))}" ${upright} width="${mm(barMm / view.scale)}"/>`;
}
