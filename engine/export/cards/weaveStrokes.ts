/** A point in millimetres: along the piece from its left end, and across it from its middle line. */
export type Point = readonly [alongMm: number, acrossMm: number];

/** Cords that are drawn together, one stroke over what was drawn before. */
export interface Strokes {
  readonly cord: 'over' | 'under' | 'stripe' | 'band';
  readonly ends: 'round' | 'butt';
  readonly lines: readonly (readonly Point[])[];
}

/** What strokes need to know: a stretch of the woven part, with all lengths in millimetres. */
export interface Woven {
  readonly fromMm: number;
  readonly toMm: number;
  readonly widthMm: number;
  readonly diameterMm: number;
  readonly pitchMm: number | null;
  readonly angleDegrees: number | null;
  readonly overStrands: number;
  readonly underStrands: number;
  /** How many strands a strand of a braid passes over before it goes under. */
  readonly passesOver: number;
}

/**
 * The visible face of a weave as centre lines of its cords, in drawing order. The same circles, zigzags and
 * helices as the take-up functions of engine/cord reckon with, seen from above; none where a measure is missing.
 */
export function weaveStrokes(family: string, woven: Woven): readonly Strokes[] {
  if (!(woven.toMm > woven.fromMm)) return [];
  switch (family) {
    case 'bar':
      return woven.pitchMm === null ? [] : barStrokes(woven, woven.pitchMm);
    case 'twist':
      return woven.pitchMm === null ? [] : twistStrokes(woven, woven.pitchMm);
    case 'zig-zag':
      return woven.pitchMm === null ? [] : passes(woven, woven.pitchMm);
    case 'wrap':
      return woven.pitchMm === null ? [] : wrapStrokes(woven, woven.pitchMm);
    case 'round braid':
      return braidStrokes(woven);
    case 'flat plait':
      return plaitStrokes(woven);
    default:
      return [];
  }
}

/** How far a cord's centre line is from the middle at most. */
const reach = ({ widthMm, diameterMm }: Woven): number => Math.max(0, (widthMm - diameterMm) / 2);

/** No more strokes than the eye can part; a slip such as a pitch of a micrometre must not fill the memory. */
const mostStrokes = 2000;

function steps(woven: Woven, stepMm: number): number {
  return Math.min(mostStrokes, Math.floor((woven.toMm - woven.fromMm) / stepMm + 1e-6));
}

/** Each half knot lays the over cord across the face; the under cord passes behind and shows as a loop at the edge. */
function barStrokes(woven: Woven, pitchMm: number): readonly Strokes[] {
  const edge = reach(woven);
  const at = (knot: number): number => woven.fromMm + knot * pitchMm;
  const side = (knot: number): number => (knot % 2 === 0 ? -edge : edge);
  const knots = Array.from({ length: steps(woven, pitchMm) }, (_, knot) => knot);
  const pass = (sign: 1 | -1) =>
    knots.map((knot): readonly Point[] => [
      [at(knot + 0.2), sign * side(knot)],
      [at(knot + 0.8), sign * side(knot + 1)],
    ]);
  const loops = knots.map((knot): readonly Point[] => [
    [at(knot + 0.6), side(knot + 1)],
    [at(Math.min(knot + 1.4, knots.length - 0.2)), side(knot + 1)],
  ]);
  return [
    { cord: 'under', ends: 'round', lines: pass(-1) },
    { cord: 'over', ends: 'round', lines: pass(1) },
    { cord: 'under', ends: 'round', lines: loops },
  ];
}

/** All half knots begin on one side, so that each cord in its turn crosses the face the same way. */
function twistStrokes(woven: Woven, pitchMm: number): readonly Strokes[] {
  const edge = reach(woven);
  const lines = Array.from({ length: steps(woven, pitchMm) }, (_, knot): readonly Point[] => [
    [woven.fromMm + (knot + 0.2) * pitchMm, -edge],
    [woven.fromMm + (knot + 0.8) * pitchMm, edge],
  ]);
  return [
    { cord: 'over', ends: 'round', lines: lines.filter((_, knot) => knot % 2 === 0) },
    { cord: 'under', ends: 'round', lines: lines.filter((_, knot) => knot % 2 === 1) },
  ];
}

/** One cord to and fro over the face. */
function passes(woven: Woven, pitchMm: number): readonly Strokes[] {
  const edge = reach(woven);
  const turns = Array.from(
    { length: steps(woven, pitchMm) + 1 },
    (_, pass): Point => [woven.fromMm + pass * pitchMm, pass % 2 === 0 ? -edge : edge],
  );
  return [{ cord: 'over', ends: 'round', lines: turns.length > 1 ? [turns] : [] }];
}

/** A cord along the middle of the face, over one half knot and hidden under the next. */
export function stripeStrokes(woven: Woven): Strokes {
  const pitchMm = woven.pitchMm ?? 0;
  const lines = Array.from(
    { length: pitchMm > 0 ? Math.ceil(steps(woven, pitchMm) / 2) : 0 },
    (_, pair): readonly Point[] => [
      [woven.fromMm + 2 * pair * pitchMm, 0],
      [woven.fromMm + (2 * pair + 1) * pitchMm, 0],
    ],
  );
  return { cord: 'stripe', ends: 'butt', lines };
}

/**
 * Cords stitched to and fro over the face of the finished piece; the second of two crosses the first.
 *
 * @param knots half knots that one stitch passes
 */
export function bandStrokes(woven: Woven, cords: number, knots: number): Strokes {
  const edge = reach(woven);
  const stepMm = (woven.pitchMm ?? 0) * knots;
  const stitches = stepMm > 0 ? steps(woven, stepMm) : 0;
  const lines = Array.from({ length: stitches > 0 ? Math.min(cords, 6) : 0 }, (_, cord) =>
    Array.from(
      { length: stitches + 1 },
      (__, stitch): Point => [woven.fromMm + stitch * stepMm, (stitch + cord) % 2 === 0 ? -edge : edge],
    ),
  );
  return { cord: 'band', ends: 'round', lines };
}

/** A turn climbs by half its pitch across the face, and by the other half behind. */
function wrapStrokes(woven: Woven, pitchMm: number): readonly Strokes[] {
  const edge = reach(woven);
  const lines = Array.from({ length: steps(woven, pitchMm) }, (_, turn): readonly Point[] => {
    const x = woven.fromMm + (turn + 0.25) * pitchMm;
    return [
      [x, -edge],
      [x + pitchMm / 2, edge],
    ];
  });
  return [{ cord: 'over', ends: 'round', lines }];
}

/** Half of the strands run round one way and half the other; each shows for half a turn. */
function braidStrokes(woven: Woven): readonly Strokes[] {
  const each = Math.floor((woven.overStrands + woven.underStrands) / 2);
  const angle = (woven.angleDegrees ?? 0) * (Math.PI / 180);
  const radius = reach(woven);
  if (each < 1 || angle <= 0 || radius <= 0) return [];
  /** Radians round the braid for each millimetre along it. */
  const turning = Math.tan(angle) / radius;
  const between = Math.PI / each;
  const passes = Math.max(1, Math.round(woven.passesOver));
  /** Where a strand goes over is a matter of the place round the braid, as its carriers are led. */
  const isOverAt = (crossing: number): boolean => Math.floor(crossing / passes) % 2 === 0;
  const sorted = new Sorted(woven);
  for (let strand = 0; strand < 2 * each; strand += 1) {
    const way = strand < each ? 1 : -1;
    const start = (strand % each) * 2 * between;
    const angleAt = (alongMm: number): number => way * turning * (alongMm - woven.fromMm) + start;
    const [low, high] = [angleAt(woven.fromMm), angleAt(woven.toMm)].sort((one, other) => one - other) as [
      number,
      number,
    ];
    const last = Math.min(Math.ceil(high / between), Math.floor(low / between) + mostStrokes);
    for (let crossing = Math.floor(low / between); crossing <= last; crossing += 1) {
      const middle = 2 * Math.PI * Math.round((crossing * between) / (2 * Math.PI));
      const from = Math.max((crossing - 0.5) * between, middle - Math.PI / 2);
      const to = Math.min((crossing + 0.5) * between, middle + Math.PI / 2);
      if (to - from < 1e-6) continue;
      const line = Array.from({ length: 7 }, (_, at): Point => {
        const angleHere = from + ((to - from) * at) / 6;
        return [woven.fromMm + (way * (angleHere - start)) / turning, radius * Math.sin(angleHere)];
      });
      sorted.add(strand < woven.overStrands ? 'over' : 'under', isOverAt(crossing) === (way === 1), line);
    }
  }
  return sorted.strokes();
}

/**
 * Strand j follows strand j - 1 by one bight; between the edges each meets all others, every half bight. A
 * strand going down lies over at every other crossing counted from the upper edge, one going up at the rest.
 */
function plaitStrokes(woven: Woven): readonly Strokes[] {
  const strands = woven.overStrands + woven.underStrands;
  const angle = (woven.angleDegrees ?? 0) * (Math.PI / 180);
  const pitchMm = woven.pitchMm ?? (angle > 0 ? woven.diameterMm / Math.sin(angle) : 0);
  if (strands < 3 || pitchMm <= 0) return [];
  const edge = reach(woven);
  const periodMm = strands * pitchMm;
  /** Across at a place of the period, told in half bights: 0 and 2 s at the upper edge, s at the lower one. */
  const across = (place: number): number => edge * (1 - (2 * Math.abs(place - strands)) / strands);
  const periods = Math.min(mostStrokes / strands, (woven.toMm - woven.fromMm) / periodMm);
  const sorted = new Sorted(woven);
  for (let strand = 0; strand < strands; strand += 1) {
    const cord = strand < woven.overStrands ? 'over' : 'under';
    for (let period = -1; period <= periods; period += 1) {
      const start = woven.fromMm + period * periodMm + strand * pitchMm;
      const point = (place: number): Point => [
        start + (place * pitchMm) / 2,
        across(place < 0 ? -place : place),
      ];
      for (let place = 0; place < 2 * strands; place += 1) {
        const turns = place % strands === 0;
        const line = (turns ? [-0.5, 0, 0.5] : [-0.5, 0.5]).map((part) => point(place + part));
        const lateral = place < strands ? place : 2 * strands - place;
        sorted.add(cord, !turns && (lateral % 2 === 1) === place < strands, line);
      }
    }
  }
  return sorted.strokes();
}

/** Pieces of cord that lie under, then those that lie over. */
class Sorted {
  readonly #kinds = new Map<string, Point[][]>();
  readonly #within: Woven;

  constructor(within: Woven) {
    this.#within = within;
  }

  add(cord: 'over' | 'under', isOver: boolean, whole: readonly Point[]): void {
    const line = clipped(whole, this.#within.fromMm, this.#within.toMm);
    if (line.length < 2) return;
    const kind = `${isOver ? 'b' : 'a'} ${cord}`;
    const lines = this.#kinds.get(kind) ?? [];
    lines.push(line);
    this.#kinds.set(kind, lines);
  }

  strokes(): Strokes[] {
    return [...this.#kinds]
      .sort(([one], [other]) => (one < other ? -1 : 1))
      .map(([kind, lines]) => ({ cord: kind.endsWith('over') ? 'over' : 'under', ends: 'butt', lines }));
  }
}

/** The part of a line between two places along the piece; the line goes one way along it. */
function clipped(line: readonly Point[], fromMm: number, toMm: number): Point[] {
  const ahead = (line.at(-1)?.[0] ?? 0) >= (line[0]?.[0] ?? 0) ? [...line] : [...line].reverse();
  const inside = ahead.filter(([along]) => along > fromMm && along < toMm);
  const at = (place: number): Point[] => {
    const next = ahead.findIndex(([along]) => along >= place);
    const [one, other] = [ahead[next - 1], ahead[next]];
    if (one === undefined || other === undefined || other[0] === one[0]) return [];
    return [[place, one[1] + ((other[1] - one[1]) * (place - one[0])) / (other[0] - one[0])]];
  };
  return [...at(fromMm), ...inside, ...at(toMm)];
}
