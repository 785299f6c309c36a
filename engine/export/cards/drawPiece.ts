import type { Card } from './card.ts';
import { cordTint } from './cordTint.ts';
import type { SetUp, Stretch } from './setUp.ts';
import { mm, pathOf } from './svg.ts';
import { type Point, type Strokes, weaveStrokes } from './weaveStrokes.ts';

/** Where the drawing stands on the paper, and how much smaller than the piece it is. */
export interface View {
  /** The middle line of the piece, in millimetres of paper. */
  readonly xMm: number;
  readonly yMm: number;
  /** Millimetres of the piece for one of paper. */
  readonly scale: number;
  /** Draw up to here, in millimetres of the piece. */
  readonly toMm: number;
  /** Draw the cords of the weave, and not just its outline. */
  readonly weave: boolean;
}

/** So much of the weave is left away at the left end, to show what is under it. */
export const coreShownMm = 9;
const layerShownMm = 18;

/** Where the woven part is drawn as such, and where only what is inside it. */
export interface Cutaway {
  readonly core: Stretch;
  readonly lower: Stretch;
  readonly top: Stretch;
}

/** Shares out the left end of the woven part; a short piece shows less of everything. */
export function cutaway(card: Card, piece: SetUp, toMm: number): Cutaway {
  const fromMm = piece.woven.fromMm;
  const endMm = Math.min(piece.woven.toMm, toMm);
  const room = (endMm - fromMm) / 3;
  const coreTo = fromMm + (card.coreStrands > 0 ? Math.min(coreShownMm, room) : 0);
  const lowerTo = coreTo + (card.layers > 1 ? Math.min(layerShownMm, room) : 0);
  return {
    core: { fromMm, toMm: coreTo },
    lower: { fromMm: coreTo, toMm: lowerTo },
    top: { fromMm: lowerTo, toMm: endMm },
  };
}

/** The piece from its left end: hardware, core, and the woven part to scale. */
export function drawPiece(card: Card, piece: SetUp, view: View): string {
  const x = (alongMm: number): number => view.xMm + alongMm / view.scale;
  const scaled = (line: readonly Point[]): Point[] =>
    line.map(([along, across]) => [x(along), view.yMm + across / view.scale]);
  const parts = [
    ...piece.hardware
      .filter(({ fromMm }) => fromMm < view.toMm)
      .map((stretch, at) => hardware(card, piece, view, stretch, at === 0)),
  ];
  const cut = cutaway(card, piece, view.toMm);
  const endMm = Math.min(piece.woven.toMm, view.toMm);
  const coreFromMm = Math.max(0, piece.woven.fromMm - (card.hitches > 0 ? (card.hardwareBarMm ?? 0) / 2 : 0));
  const shown = [
    ...(view.weave ? [{ fromMm: coreFromMm, toMm: endMm }] : []),
    ...bareStretches(piece, view.toMm),
  ];
  for (const { fromMm, toMm } of shown) {
    const strands = corePlaces(card, piece).map((across) =>
      scaled([
        [fromMm, across],
        [toMm, across],
      ]),
    );
    // One by one: strands of a bundle lie on each other.
    parts.push(
      ...strands.map((line) =>
        cords([line], colourOf(card, 'core'), card.coreDiameterMm / view.scale, 'butt'),
      ),
    );
  }
  parts.push(
    `<rect class="${view.weave ? 'outline' : 'band'}" x="${mm(x(piece.woven.fromMm))}" y="${mm(view.yMm - piece.widthMm / 2 / view.scale)}" width="${mm((endMm - piece.woven.fromMm) / view.scale)}" height="${mm(piece.widthMm / view.scale)}"/>`,
  );
  if (view.weave) {
    const lowerWidth = Math.max(card.diameterMm, piece.widthMm - 2 * card.diameterMm * (card.layers - 1));
    parts.push(
      ...(card.layers > 1
        ? layer(card, piece, { ...cut.lower, toMm: endMm }, lowerWidth, 'lower', scaled, view.scale)
        : []),
      ...layer(card, piece, cut.top, piece.widthMm, 'top', scaled, view.scale),
    );
  }
  return parts.join('\n');
}

/** Across the piece, where the middle of each core strand lies: side by side, within what is woven round them. */
export function corePlaces(card: Card, piece: SetUp): readonly number[] {
  const gaps = card.coreStrands - 1;
  const inside = piece.widthMm - 2 * card.diameterMm * card.layers - card.coreDiameterMm;
  const step = gaps > 0 ? Math.min(card.coreDiameterMm, Math.max(0, inside) / gaps) : 0;
  return Array.from({ length: card.coreStrands }, (_, at) => (at - gaps / 2) * step);
}

/** The colour in which the cord of a role is drawn: its tint, or none that is known. */
export function colourOf(card: Card, role: string): string | undefined {
  return cordTint(card.cords.find((each) => each.role === role)?.colour ?? '');
}

/** The role that a layer shows on its face: upper layers may have cords of their own. */
export function roleOf(card: Card, cord: 'over' | 'under', which: 'lower' | 'top'): string {
  const upper = `upper ${cord}`;
  return which === 'top' && card.cords.some(({ role }) => role === upper) ? upper : cord;
}

/** A drawn cord: an ink outline with the cord's tint in it; dashes where the tint is not known. */
export function cords(
  lines: readonly (readonly Point[])[],
  tint: string | undefined,
  widthMm: number,
  ends: 'round' | 'butt',
): string {
  if (lines.length === 0) return '';
  const d = pathOf(lines);
  const outlineMm = Math.min(0.18, widthMm / 8);
  const ended = ends === 'round' ? ' stroke-linecap="round"' : '';
  const inner = `stroke-width="${mm(Math.max(0.1, widthMm - 2 * outlineMm))}"`;
  const paths = [
    `<path class="edge" stroke-width="${mm(widthMm)}"${ended} d="${d}"/>`,
    tint === undefined
      ? `<path class="unknown" ${inner}${ended} d="${d}"/>`
      : `<path class="cord" stroke="${tint}" ${inner}${ended} d="${d}"/>`,
  ];
  if (tint === undefined) {
    paths.push(
      `<path class="hatch" stroke-width="${mm(widthMm * 0.6)}" stroke-dasharray="${mm(Math.max(0.15, widthMm * 0.12))} ${mm(Math.max(0.5, widthMm * 0.35))}" d="${d}"/>`,
    );
  }
  return paths.join('');
}

function layer(
  card: Card,
  piece: SetUp,
  stretch: Stretch,
  widthMm: number,
  which: 'lower' | 'top',
  scaled: (line: readonly Point[]) => Point[],
  scale: number,
): string[] {
  const strokes: readonly Strokes[] = weaveStrokes(card.weaveFamily, {
    ...stretch,
    widthMm,
    diameterMm: card.diameterMm,
    pitchMm: piece.pitchMm,
    angleDegrees: card.angleDegrees,
    overStrands: card.overStrands,
    underStrands: card.underStrands,
    passesOver: card.passesOver,
  });
  return strokes.map(({ cord, ends, lines }) =>
    cords(lines.map(scaled), colourOf(card, roleOf(card, cord, which)), card.diameterMm / scale, ends),
  );
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
  const body = `<rect class="hardware" x="${mm(x(stretch.fromMm))}" y="${mm(view.yMm - across / 2 - 1)}" width="${mm(lengthMm)}" height="${mm(across + 2)}" rx="${mm(Math.min(2, lengthMm / 4))}"/>`;
  const barMm = Math.min(card.hardwareBarMm ?? 0, stretch.toMm - stretch.fromMm);
  if (card.hitches === 0 || barMm <= 0) return body;
  const barX = isLeft ? stretch.toMm - barMm : stretch.fromMm;
  return `${body}<rect class="bar" x="${mm(x(barX))}" y="${mm(view.yMm - across / 2 - 1)}" width="${mm(barMm / view.scale)}" height="${mm(across + 2)}"/>`;
}
