/** A point in space, in cord diameters. */
export type Place = readonly [x: number, y: number, z: number];

/** A rigid move, mirrors included: `rows` is an orthogonal matrix, applied before `shift`. */
export interface Move {
  readonly rows: readonly [Place, Place, Place];
  readonly shift: Place;
}

/**
 * A weave that repeats without end, told by one repeat of one strand and by the moves that carry it onto
 * all others. The strand goes on where `next` carries its first point.
 */
export interface Weave {
  readonly points: readonly Place[];
  readonly next: Move;
  /** Moves onto every other piece that may come near, one repeat each; not the strand's own repeats. */
  readonly others: readonly Move[];
  /** Diameter of a straight core on the z axis, in cord diameters. */
  readonly core?: number;
}

export interface Taut {
  readonly points: readonly Place[];
  /** Length of one repeat of the strand. */
  readonly length: number;
  /** Least distance between centre lines, between points of the strand and of others (or far along it). */
  readonly closest: number;
}

export const turnAbout = (degrees: number, along = 0): Move => {
  const [c, s] = [Math.cos((degrees * Math.PI) / 180), Math.sin((degrees * Math.PI) / 180)];
  return {
    rows: [
      [c, -s, 0],
      [s, c, 0],
      [0, 0, 1],
    ],
    shift: [0, 0, along],
  };
};

export const shiftBy = (...shift: Place): Move => ({ ...turnAbout(0), shift });

const dot = (a: Place, b: Place): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];

export const moved = ({ rows, shift }: Move, p: Place): Place => [
  dot(rows[0], p) + shift[0],
  dot(rows[1], p) + shift[1],
  dot(rows[2], p) + shift[2],
];

/** First `first`, then `then`. */
export function after(first: Move, then: Move): Move {
  const column = (i: 0 | 1 | 2): Place => [first.rows[0][i], first.rows[1][i], first.rows[2][i]];
  const row = (i: 0 | 1 | 2): Place => [
    dot(then.rows[i], column(0)),
    dot(then.rows[i], column(1)),
    dot(then.rows[i], column(2)),
  ];
  return { rows: [row(0), row(1), row(2)], shift: moved(then, first.shift) };
}

export function inverse({ rows, shift }: Move): Move {
  const turned: Move['rows'] = [
    [rows[0][0], rows[1][0], rows[2][0]],
    [rows[0][1], rows[1][1], rows[2][1]],
    [rows[0][2], rows[1][2], rows[2][2]],
  ];
  const back = moved({ rows: turned, shift: [0, 0, 0] }, shift);
  return { rows: turned, shift: [-back[0], -back[1], -back[2]] };
}

/** A move done `times` times over; fewer than none is its inverse. */
export function repeated(move: Move, times: number): Move {
  let result = shiftBy(0, 0, 0);
  for (let i = 0; i < Math.abs(times); i += 1) result = after(result, times < 0 ? inverse(move) : move);
  return result;
}

/** Points at even spacing along a repeat that ends where `next` carries its first point. */
export function evenly(corners: readonly Place[], next: Move, count: number): readonly Place[] {
  const line = [...corners, moved(next, corners[0]!)];
  const gaps = line.slice(1).map((p, i) => Math.hypot(...p.map((value, axis) => value - line[i]![axis]!)));
  const whole = gaps.reduce((sum, gap) => sum + gap, 0);
  let [at, gone] = [0, 0];
  return Array.from({ length: count }, (_, i): Place => {
    const way = (whole * i) / count;
    while (at < gaps.length - 1 && gone + gaps[at]! < way) {
      gone += gaps[at]!;
      at += 1;
    }
    const t = (way - gone) / gaps[at]!;
    const [a, b] = [line[at]!, line[at + 1]!];
    return [a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1]), a[2] + t * (b[2] - a[2])];
  });
}

/**
 * Along one and the same strand, points nearer than this are neighbours and not in each other's way: half
 * a circle of one diameter, the sharpest turn that a round cord can make, and a little over.
 */
const neighbourly = Math.PI / 2 + 0.1;

/**
 * Pulls a weave taut by shrinking: every point moves a little towards the middle of its neighbours, and
 * then points of cords that run into each other (nearer than one diameter) are pushed apart, until it
 * rests. Cords are round, smooth and do not flatten; the work keeps its length. Nothing is taken from a
 * closed form. The way of going about it is that of the tightening of knots by computer (Pieranski's
 * "shrink on no overlaps"), whose published lengths the tests hold it to.
 */
export function tauten(weave: Weave, rounds = 2500, pull = 0.4): Taut {
  const count = weave.points.length;
  const at = Float64Array.from(weave.points.flat());
  const placeOf = (i: number): Place => [at[3 * i]!, at[3 * i + 1]!, at[3 * i + 2]!];
  const first = weave.points[0]!;
  // A closed ring comes back to itself: it has no repeats further on, and its ends are neighbours.
  const isRing = Math.hypot(...moved(weave.next, first).map((value, axis) => value - first[axis]!)) < 1e-9;
  const reach = isRing ? 0 : 4;
  const own = Array.from({ length: 2 * reach + 1 }, (_, k) => k - reach);
  const images = [
    ...own.map((times) => ({ times: times as number | undefined, move: repeated(weave.next, times) })),
    ...weave.others.map((move) => ({ times: undefined, move })),
  ];
  // Twelve numbers a move: the three rows, then the shift.
  const moves = Float64Array.from(images.flatMap(({ move }) => [...move.rows.flat(), ...move.shift]));
  const carriedBy = (image: number, j: number, axis: 0 | 1 | 2): number => {
    const row = 12 * image + 3 * axis;
    return (
      moves[row]! * at[3 * j]! +
      moves[row + 1]! * at[3 * j + 1]! +
      moves[row + 2]! * at[3 * j + 2]! +
      moves[12 * image + 9 + axis]!
    );
  };

  const lengthNow = (): number => {
    let sum = 0;
    for (let i = 0; i < count; i += 1) {
      const [a, b] = [placeOf(i), i + 1 < count ? placeOf(i + 1) : moved(weave.next, placeOf(0))];
      sum += Math.hypot(b[0] - a[0], b[1] - a[1], b[2] - a[2]);
    }
    return sum;
  };

  /** Pairs of points nearer than that, as triples: point, other point, move that carries the other. */
  const pairsWithin = (distance: number): number[] => {
    const apart = Math.ceil((neighbourly / lengthNow()) * count);
    const found: number[] = [];
    images.forEach(({ times }, image) => {
      for (let j = 0; j < count; j += 1) {
        const [x, y, z] = [carriedBy(image, j, 0), carriedBy(image, j, 1), carriedBy(image, j, 2)];
        for (let i = 0; i < count; i += 1) {
          const up = at[3 * i + 2]! - z;
          if (up > distance || up < -distance) continue;
          const [aside, away] = [at[3 * i]! - x, at[3 * i + 1]! - y];
          if (aside * aside + away * away + up * up >= distance * distance) continue;
          if (times !== undefined) {
            const along = Math.abs(j + times * count - i);
            if ((isRing ? Math.min(along, count - along) : along) < apart) continue;
          }
          found.push(i, j, image);
        }
      }
    });
    return found;
  };

  const pushApart = (i: number, j: number, image: number): void => {
    const x = at[3 * i]! - carriedBy(image, j, 0);
    const y = at[3 * i + 1]! - carriedBy(image, j, 1);
    const z = at[3 * i + 2]! - carriedBy(image, j, 2);
    const squared = x * x + y * y + z * z;
    if (squared >= 1 || squared === 0) return;
    const distance = Math.sqrt(squared);
    const push = (0.25 * (1 - distance)) / distance;
    at[3 * i] = at[3 * i]! + push * x;
    at[3 * i + 1] = at[3 * i + 1]! + push * y;
    at[3 * i + 2] = at[3 * i + 2]! + push * z;
    // The other is pushed the other way, carried back: by the columns of the move.
    const row = 12 * image;
    for (let axis = 0; axis < 3; axis += 1) {
      const back = moves[row + axis]! * x + moves[row + 3 + axis]! * y + moves[row + 6 + axis]! * z;
      at[3 * j + axis] = at[3 * j + axis]! - push * back;
    }
  };

  const inner = weave.core === undefined ? 0 : (weave.core + 1) / 2;
  const keepOffCore = (i: number): void => {
    const r = Math.hypot(at[3 * i]!, at[3 * i + 1]!);
    if (r >= inner || r === 0) return;
    at[3 * i] = (at[3 * i]! * inner) / r;
    at[3 * i + 1] = (at[3 * i + 1]! * inner) / r;
  };

  const backward = inverse(weave.next);
  const held = new Float64Array(3 * (count + 2));
  let pairs: readonly number[] = [];
  for (let round = 0; round < rounds; round += 1) {
    // The last rounds pull less, so that hardly any overlap is left.
    const force = round < 0.7 * rounds ? pull : pull * 0.1;
    if (round % 15 === 0) pairs = pairsWithin(1.25);
    held.set(moved(backward, placeOf(count - 1)), 0);
    held.set(at, 3);
    held.set(moved(weave.next, placeOf(0)), 3 * (count + 1));
    for (let k = 0; k < 3 * count; k += 1) {
      at[k] = held[k + 3]! + force * ((held[k]! + held[k + 6]!) / 2 - held[k + 3]!);
    }
    for (let k = 0; k < pairs.length; k += 3) pushApart(pairs[k]!, pairs[k + 1]!, pairs[k + 2]!);
    if (inner > 0) for (let i = 0; i < count; i += 1) keepOffCore(i);
  }

  let closest = Number.POSITIVE_INFINITY;
  const near = pairsWithin(1.5);
  for (let k = 0; k < near.length; k += 3) {
    const [i, j, image] = [near[k]!, near[k + 1]!, near[k + 2]!];
    const q = [carriedBy(image, j, 0), carriedBy(image, j, 1), carriedBy(image, j, 2)] as const;
    closest = Math.min(closest, Math.hypot(...placeOf(i).map((value, axis) => value - q[axis]!)));
  }
  return { points: weave.points.map((_, i) => placeOf(i)), length: lengthNow(), closest };
}
