import type { Card } from './card.ts';
import type { SetUp } from './setUp.ts';
import { label, mm, rowMm } from './svg.ts';
import { corePlaces, cutaway, roleOf, type WeaveLayer } from './weaveLayers.ts';
import type { Point, Strokes } from './weaveStrokes.ts';

/** Where leaders hang, in millimetres of paper, beside a piece that is drawn at full size. */
export interface Hanging {
  /** Of the piece's left end. */
  readonly xMm: number;
  /** Of its middle line. */
  readonly middleMm: number;
  /** Of its lower edge. */
  readonly topMm: number;
  /** The piece is drawn up to here. */
  readonly toMm: number;
  readonly widthMm: number;
}

/** Names of the cords, each with a line to one of its strands: the leftmost hangs lowest, so that none cross. */
export function leaders(
  card: Card,
  piece: SetUp,
  at: Hanging,
): { readonly svg: string; readonly heightMm: number } {
  const { core, layers } = cutaway(card, piece, at.toMm);
  const ends: { readonly role: string; readonly point: Point }[] = [
    {
      role: 'core',
      point: [(core.fromMm + core.toMm) / 2, Math.max(...corePlaces(card, piece), 0)],
    },
  ];
  for (const layer of layers) {
    for (const cord of ['over', 'under'] as const) {
      const role = roleOf(card, cord, layer.which);
      // A cord that goes on into the upper layers is named where it lies uppermost.
      if (layer.which === 'lower' && roleOf(card, cord, 'top') === role) continue;
      ends.push({ role, point: strandOf(card, layer, cord) });
    }
  }
  const face = layers.at(-1);
  for (const role of ['stripe', 'band'] as const) {
    if (face !== undefined) ends.push({ role, point: strandOf(card, face, role) });
  }
  const named = ends
    .flatMap(({ role, point }) => {
      const cord = card.cords.find((each) => each.role === role);
      if (cord === undefined) return [];
      const strands = cord.cords * cord.strandsInEach;
      return [{ point, text: `${role}: ${strands > 1 ? `${strands} of ` : ''}${cord.cord}` }];
    })
    .sort((one, other) => one.point[0] - other.point[0]);
  const drawn = named.map(({ point: [along, across], text }, order) => {
    const x = at.xMm + along;
    const y = at.topMm + rowMm * (named.length - order);
    const from = at.middleMm + across;
    return `<path class="leader" d="M${mm(x)} ${mm(from)}V${mm(y - 1)}h1.5"/><circle class="dot" cx="${mm(x)}" cy="${mm(from)}" r="0.7"/>${label(x + 2.5, y, text, at.widthMm - x - 3)}`;
  });
  return { svg: drawn.join('\n'), heightMm: named.length * rowMm + 1 };
}

/** How far along the layer a cord is named: one beside the other, and not too far from the left end. */
const partOf = { over: 0.2, under: 0.4, stripe: 0.6, band: 0.75 } as const;

/** A place on a strand of this cord that nothing lies on; of the under cord, low, where its loops lie. */
function strandOf(card: Card, layer: WeaveLayer, cord: Strokes['cord']): Point {
  const { fromMm, toMm } = layer.seen;
  const part = layer.which === 'lower' ? 1.5 * partOf[cord] : partOf[cord];
  const wanted: Point = [
    fromMm + (toMm - fromMm) * part,
    cord === 'under' ? (layer.widthMm - card.diameterMm) / 2 : 0,
  ];
  const far = ([along, across]: Point): number => Math.hypot(along - wanted[0], across - wanted[1]);
  const uppermost = layer.strokes.filter((strokes) => strokes.cord === cord).at(-1);
  // A stripe or a band lies on the middle of the cords below it.
  const covered =
    cord === 'over' && layer.strokes.some(({ cord: laid }) => laid === 'stripe' || laid === 'band');
  const places = (uppermost?.lines ?? [])
    .map((line) => pointOn(line, covered ? 0.25 : 0.5))
    .filter(([along]) => along > fromMm && along < toMm);
  return places.sort((one, other) => far(one) - far(other))[0] ?? wanted;
}

/** The point of a line after a part of its corners. */
function pointOn(line: readonly Point[], part: number): Point {
  const at = (line.length - 1) * part;
  const [one, other] = [line[Math.floor(at)], line[Math.ceil(at)]];
  if (one === undefined || other === undefined) return [0, 0];
  const rest = at - Math.floor(at);
  return [one[0] + (other[0] - one[0]) * rest, one[1] + (other[1] - one[1]) * rest];
}
