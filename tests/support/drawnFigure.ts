import { type Flat, fewer, finely, within } from './flatLine.ts';
import { type PaintedRun, paintOrder } from './paintOrder.ts';

/** A place in space, in cord diameters: x along the work, y across it, z towards the eye. */
export type Place = readonly [x: number, y: number, z: number];

/** What a strand is in the weave; each has its own colour, and figures name it in words as well. */
export type Tone = 'core' | 'over' | 'under' | 'extra';

/** A strand as drawn: its centre line in close steps (a third of a diameter or less), and its thickness. */
export interface Strand {
  readonly tone: Tone;
  readonly line: readonly Place[];
  /** In cord diameters; 1 where left out. */
  readonly thick?: number;
}

/** Words in a view, at a place of the flat drawing (right and up, in cord diameters), with a leader to `to`. */
export interface Label {
  readonly text: string;
  readonly at: readonly [right: number, up: number];
  readonly to?: readonly [right: number, up: number];
  readonly anchor?: 'start' | 'middle' | 'end';
}

/** A length with ticks at both ends and its words beside it; level or upright. */
export interface Measure {
  readonly text: string;
  readonly from: readonly [right: number, up: number];
  readonly to: readonly [right: number, up: number];
}

/**
 * One picture of the strands. From above, right is x and up is y; from the end, right is y, up is z and the
 * eye looks back along the work. Strands are cut off at the window; words may stand outside it.
 */
export interface View {
  readonly caption: string;
  readonly from: 'above' | 'end';
  readonly strands: readonly Strand[];
  readonly window: { readonly right: readonly [number, number]; readonly up: readonly [number, number] };
  readonly labels?: readonly Label[];
  readonly measures?: readonly Measure[];
}

export interface Figure {
  readonly title: string;
  /** For those who cannot see it. */
  readonly describes: string;
  /** Side by side. */
  readonly views: readonly View[];
}

// Palette: ink, paper and quiet grounds with colours that stay apart in grey print and for colour-blind eyes.
const ink = '#22303C';
const paper = '#FFFFFF';
const tones: Readonly<Record<Tone, string>> = {
  core: '#C4BEB1',
  over: '#2F5D62',
  under: '#D9A441',
  extra: '#A63D40',
};
/** Drawing units per cord diameter, so that whole numbers are fine enough. */
const unit = 100;
/** Paper left free on either side of a strand that lies above another. */
const casing = 0.09;
const gap = 1.1;
const captionHeight = 1.1;
const textHeight = 0.52;
/** Of the height, on the average. */
const letterWidth = 0.56;

const whole = (value: number): number => Math.round(value * unit) + 0;
const escaped = (text: string): string =>
  text.replace(/&/g, '&amp;').replace(/</g, '&lt;').replace(/>/g, '&gt;').replace(/"/g, '&quot;');

type ToPage = (right: number, up: number) => readonly [x: number, y: number];

const seen = (view: View['from'], [x, y, z]: Place): Flat => (view === 'above' ? [x, y, z] : [y, z, x]);

/** Absolute start and relative steps: short, and the same on every machine once rounded. */
function pathOf(points: readonly Flat[], toPage: ToPage): string {
  let [atX, atY] = [0, 0];
  return fewer(points, 0.012)
    .map(([right, up], i) => {
      const [x, y] = toPage(right, up);
      const step = i === 0 ? `M${x} ${y}` : `l${x - atX} ${y - atY}`;
      [atX, atY] = [x, y];
      return step;
    })
    .join('');
}

const grown = ([from, to]: readonly [number, number]): readonly [number, number] => [from - 1, to + 1];

interface DrawnLine {
  readonly line: readonly Flat[];
  readonly thick: number;
  readonly colour: string;
}

function strandsOf(view: View, toPage: ToPage): string[] {
  const lines = view.strands.flatMap(({ line, tone, thick }): DrawnLine[] =>
    within(
      line.map((place) => seen(view.from, place)),
      { right: grown(view.window.right), up: grown(view.window.up) },
    ).map((part) => ({ line: part, thick: thick ?? 1, colour: tones[tone] })),
  );
  // A strand seen end on is a disc, behind everything that is wound round it.
  const isDisc = ({ line }: DrawnLine): boolean =>
    line.every((p) => Math.hypot(p[0] - line[0]![0], p[1] - line[0]![1]) < 0.05);
  const discs = lines.filter(isDisc).map(({ line, thick, colour }) => {
    const [x, y] = toPage(line[0]![0], line[0]![1]);
    return `<circle cx="${x}" cy="${y}" r="${whole((thick - casing) / 2)}" fill="${colour}"/>`;
  });
  const drawn = lines.filter((each) => !isDisc(each)).map((each) => ({ ...each, line: finely(each.line) }));
  const paint = ({ strand, from, to, fill }: PaintedRun): string => {
    const { line, thick, colour } = drawn[strand]!;
    const bare = pathOf(line.slice(from, to + 1), toPage);
    // A little further at both ends at least, so that the runs of one strand join without a seam.
    const full = pathOf(
      line.slice(Math.min(fill[0], Math.max(from - 2, 0)), Math.max(fill[1], to + 2) + 1),
      toPage,
    );
    return [
      `<path d="${bare}" stroke="${paper}" stroke-width="${whole(thick + 2 * casing)}"/>`,
      `<path d="${full}" stroke="${colour}" stroke-width="${whole(thick - casing)}"/>`,
    ].join('\n');
  };
  return [...discs, ...paintOrder(drawn, casing).map(paint)];
}

function labelOf(label: Label, toPage: ToPage): string[] {
  const [x, y] = toPage(...label.at);
  const parts: string[] = [];
  if (label.to !== undefined) {
    const [toX, toY] = toPage(...label.to);
    // The leader starts at the edge of the words that faces its goal.
    const startY = toY > y ? y + whole(0.12) : y - whole(textHeight * 0.85);
    parts.push(`<path d="M${x} ${startY}L${toX} ${toY}" class="leader"/>`);
    parts.push(
      `<circle cx="${toX}" cy="${toY}" r="${whole(0.09)}" fill="${ink}" stroke="${paper}" stroke-width="4"/>`,
    );
  }
  parts.push(
    `<text x="${x}" y="${y}" text-anchor="${label.anchor ?? 'middle'}">${escaped(label.text)}</text>`,
  );
  return parts;
}

function measureOf(measure: Measure, toPage: ToPage): string[] {
  const [[x1, y1], [x2, y2]] = [toPage(...measure.from), toPage(...measure.to)];
  const tick = whole(0.2);
  if (y1 === y2) {
    const path = `M${x1} ${y1 - tick}v${2 * tick}M${x1} ${y1}H${x2}M${x2} ${y2 - tick}v${2 * tick}`;
    const middle = Math.round((x1 + x2) / 2);
    return [
      `<path d="${path}" class="leader"/>`,
      `<text x="${middle}" y="${y1 + whole(0.75)}" text-anchor="middle">${escaped(measure.text)}</text>`,
    ];
  }
  const path = `M${x1 - tick} ${y1}h${2 * tick}M${x1} ${y1}V${y2}M${x2 - tick} ${y2}h${2 * tick}`;
  const middle = Math.round((y1 + y2) / 2 + whole(textHeight * 0.3));
  return [
    `<path d="${path}" class="leader"/>`,
    `<text x="${x1 + whole(0.25)}" y="${middle}" text-anchor="start">${escaped(measure.text)}</text>`,
  ];
}

interface Extent {
  readonly right: readonly [number, number];
  readonly up: readonly [number, number];
}

/** The window and the words around it. */
function extentOf({ window, caption, labels = [], measures = [] }: View): Extent {
  const half = (text: string): number => (text.length * textHeight * letterWidth) / 2;
  const rights = [...window.right];
  const ups = [...window.up];
  const middle = (window.right[0] + window.right[1]) / 2;
  rights.push(middle - half(caption), middle + half(caption));
  for (const { text, at, anchor = 'middle' } of labels) {
    const shift = anchor === 'middle' ? 0 : anchor === 'start' ? half(text) : -half(text);
    rights.push(at[0] + shift - half(text), at[0] + shift + half(text));
    ups.push(at[1] - 0.2, at[1] + textHeight);
  }
  for (const { text, from, to } of measures) {
    const isLevel = from[1] === to[1];
    const words = isLevel ? (from[0] + to[0]) / 2 - half(text) : from[0];
    rights.push(words, words + 2 * half(text) + (isLevel ? 0 : 0.3));
    ups.push(Math.min(from[1], to[1]) - (isLevel ? 0.95 : 0.2));
  }
  return { right: [Math.min(...rights), Math.max(...rights)], up: [Math.min(...ups), Math.max(...ups)] };
}

/**
 * Draws strands as lines one diameter wide, each with a rim of paper, so that over and under can be read.
 * Which part is painted over which follows from the heights of the centre lines alone.
 */
export function drawnFigure(figure: Figure): string {
  const extents = figure.views.map(extentOf);
  // The middles of all pictures stand on one level.
  const middleOf = ({ window }: View): number => (window.up[0] + window.up[1]) / 2;
  const above = Math.max(...figure.views.map((view, i) => extents[i]!.up[1] - middleOf(view)));
  const below = Math.max(...figure.views.map((view, i) => middleOf(view) - extents[i]!.up[0]));
  let left = gap / 2;
  const body = figure.views.flatMap((view, i) => {
    const [[r0, r1], [u0, u1]] = [view.window.right, view.window.up];
    const { right } = extents[i]!;
    const level = captionHeight + above + middleOf(view);
    const start = left - right[0];
    left += right[1] - right[0] + gap;
    const toPage = (along: number, up: number): readonly [x: number, y: number] => [
      whole(start + along),
      whole(level - up),
    ];
    const [x, y] = toPage(r0, u1);
    const box = `width="${whole(r1 - r0)}" height="${whole(u1 - u0)}" viewBox="${x} ${y} ${whole(r1 - r0)} ${whole(u1 - u0)}"`;
    return [
      `<text x="${x + whole((r1 - r0) / 2)}" y="${whole(0.85)}" text-anchor="middle" class="caption">${escaped(view.caption)}</text>`,
      // A drawing in the drawing, as it cuts off what lies outside.
      `<svg x="${x}" y="${y}" ${box} fill="none" stroke-linejoin="round" aria-hidden="true">`,
      ...strandsOf(view, toPage),
      '</svg>',
      ...(view.measures ?? []).flatMap((measure) => measureOf(measure, toPage)),
      ...(view.labels ?? []).flatMap((label) => labelOf(label, toPage)),
    ];
  });
  const [width, height] = [whole(left - gap / 2), whole(captionHeight + above + below + gap / 2)];
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${width} ${height}" width="${Math.round(width * 0.34)}" role="img">`,
    `<title>${escaped(figure.title)}</title>`,
    `<desc>${escaped(figure.describes)}</desc>`,
    `<style>text{font:${whole(textHeight)}px system-ui,sans-serif;fill:${ink};paint-order:stroke;stroke:${paper};stroke-width:14px;stroke-linejoin:round}.caption{fill:#2F5D62}.leader{fill:none;stroke:${ink};stroke-width:5}</style>`,
    `<rect width="${width}" height="${height}" fill="${paper}"/>`,
    ...body,
    '</svg>',
    '',
  ].join('\n');
}
