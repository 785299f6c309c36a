/** A line to paint, seen flat: right, up, and how near the eye; in even close steps. */
export interface PaintedLine {
  readonly line: readonly (readonly [right: number, up: number, near: number])[];
  readonly thick: number;
}

/** Points `from`..`to` of one line, painted in one stroke. */
export interface PaintedRun {
  readonly strand: number;
  readonly from: number;
  readonly to: number;
  /** So far its colour may go on over its own strand, whose edge the rim would cut where it bends. */
  readonly fill: readonly [from: number, to: number];
}

interface Piece {
  readonly strand: number;
  readonly from: number;
  readonly to: number;
  /** Pieces that lie over this one. */
  readonly above: Piece[];
  waitsFor: number;
  isPainted: boolean;
}

/** Steps in a piece; short enough that a piece lies either over or under another. */
const pieceSteps = 4;
/** Pieces of its own strand over which a run's colour may go on. */
const joined = 3;

const pieceNear = (piece: Piece, lines: readonly PaintedLine[]): number =>
  lines[piece.strand]!.line[Math.floor((piece.from + piece.to) / 2)]![2];

/** How far one piece lies above another where they come closest in the flat; undefined if they do not meet. */
function rise(a: Piece, b: Piece, lines: readonly PaintedLine[], reach: number): number | undefined {
  let closest = reach * reach;
  let found: number | undefined;
  for (let i = a.from; i <= a.to; i += 1) {
    const p = lines[a.strand]!.line[i]!;
    for (let j = b.from; j <= b.to; j += 1) {
      const q = lines[b.strand]!.line[j]!;
      const squared = (p[0] - q[0]) ** 2 + (p[1] - q[1]) ** 2;
      if (squared < closest) {
        closest = squared;
        found = p[2] - q[2];
      }
    }
  }
  return found;
}

function along(line: PaintedLine['line'], from: number, to: number): number {
  let way = 0;
  for (let i = from + 1; i <= to; i += 1) {
    way += Math.hypot(
      line[i]![0] - line[i - 1]![0],
      line[i]![1] - line[i - 1]![1],
      line[i]![2] - line[i - 1]![2],
    );
  }
  return way;
}

/**
 * The order in which to paint lines so that what is nearer the eye covers what is farther: lowest first, and
 * on along the same line as long as nothing else has to come before.
 */
export function paintOrder(lines: readonly PaintedLine[], casing: number): PaintedRun[] {
  const pieces: Piece[] = lines.flatMap(({ line }, strand) =>
    Array.from({ length: Math.ceil((line.length - 1) / pieceSteps) }, (_, i): Piece => {
      const from = i * pieceSteps;
      return {
        strand,
        from,
        to: Math.min(from + pieceSteps, line.length - 1),
        above: [],
        waitsFor: 0,
        isPainted: false,
      };
    }),
  );
  pieces.forEach((a, i) => {
    for (const b of pieces.slice(i + 1)) {
      const thick = (lines[a.strand]!.thick + lines[b.strand]!.thick) / 2;
      // Along one line, only what comes round again lies over itself.
      if (a.strand === b.strand && along(lines[a.strand]!.line, a.to, b.from) < 1.5 * thick) continue;
      const risen = rise(a, b, lines, thick + casing);
      if (risen === undefined) continue;
      const [low, high] = risen > 0 ? [b, a] : [a, b];
      low.above.push(high);
      high.waitsFor += 1;
    }
  });

  const runs: PaintedRun[] = [];
  const paint = (piece: Piece): void => {
    piece.isPainted = true;
    for (const each of piece.above) each.waitsFor -= 1;
  };
  const lowest = (of: readonly Piece[]): Piece =>
    of.reduce((best, each) => (pieceNear(each, lines) < pieceNear(best, lines) ? each : best));
  for (
    let left = pieces.filter((each) => !each.isPainted);
    left.length > 0;
    left = left.filter((each) => !each.isPainted)
  ) {
    const free = left.filter((each) => each.waitsFor <= 0);
    // Lines that lie over each other in a circle cannot be drawn flat; the lowest goes first.
    const first = lowest(free.length > 0 ? free : left);
    paint(first);
    let [from, to] = [first.from, first.to];
    const isNext = (each: Piece): boolean =>
      !each.isPainted &&
      each.strand === first.strand &&
      each.waitsFor <= 0 &&
      (each.from === to || each.to === from);
    for (let next = left.find(isNext); next !== undefined; next = left.find(isNext)) {
      paint(next);
      [from, to] = [Math.min(from, next.from), Math.max(to, next.to)];
    }
    const own = pieces.filter((each) => each.strand === first.strand);
    const isBare = (each: Piece): boolean => each.isPainted && each.above.every((other) => !other.isPainted);
    let [low, high] = [from, to];
    for (let k = 0; k < joined; k += 1) {
      if (own.some((each) => each.to === low && isBare(each))) low -= pieceSteps;
      const next = own.find((each) => each.from === high && isBare(each));
      if (next !== undefined) high = next.to;
    }
    runs.push({ strand: first.strand, from, to, fill: [low, high] });
  }
  return runs;
}
