import type { Place } from '../../support/drawnFigure.ts';

/** A movement that carries a weave onto itself: a mirror across the width, a turn about its length, a shift. */
export interface Movement {
  /** Along the work, in periods. */
  readonly periods: number;
  /** Cosine and sine of the turn. */
  readonly turn: readonly [cos: number, sin: number];
  /** True where the strand is carried onto itself, one period on for each of `periods`. */
  readonly isOwn: boolean;
}

/** A weave before it is pulled tight: right in over and under, loose in shape. */
export interface Laid {
  /** Length of one period along the work, in cord diameters. */
  readonly period: number;
  /** One period of each strand; the last point is followed by the first, one period on and turned. */
  readonly strands: readonly (readonly Place[])[];
  /** Straight strands that do not give way, as places across the work. */
  readonly core: readonly (readonly [y: number, z: number])[];
  /** Turn of the work from period to period, in radians. */
  readonly turn?: number;
  /** True where half a turn about the length carries the weave onto itself, each strand onto its partner. */
  readonly isHalfTurned?: boolean;
  /** How far on the partner lies, in periods; 0 where left out. */
  readonly partnerShift?: number;
}

export interface Tight {
  /** One period of each strand, in even steps, closed: the last point is the first one period on. */
  readonly lines: readonly (readonly Place[])[];
  /** Length of each strand in one period. */
  readonly lengths: readonly number[];
  /** Least distance between centre lines of strands, core and all; 1 where they touch. */
  readonly closest: number;
  /** The whole weave: each strand's line carried over `periods` periods, partners included. */
  carried(periods: number): readonly (readonly Place[])[];
}

/** Steps of the line, in cord diameters. */
const step = 0.2;
/** Along its own line, a strand may come closer than a diameter within this way: it bends. */
const bend = 1.7;
const rounds = 1600;

const move = ([x, y, z]: Place, { periods, turn: [cos, sin] }: Movement, period: number): Place => [
  x + periods * period,
  cos * y - sin * z,
  sin * y + cos * z,
];

const distance = (a: Place, b: Place): number =>
  Math.sqrt((a[0] - b[0]) ** 2 + (a[1] - b[1]) ** 2 + (a[2] - b[2]) ** 2);

const turned = (angle: number, half: boolean): readonly [number, number] => {
  const sign = half ? -1 : 1;
  // Nine places, so that the last digit of a sine does not decide where a strand settles.
  return [(sign * Math.round(Math.cos(angle) * 1e9)) / 1e9, (sign * Math.round(Math.sin(angle) * 1e9)) / 1e9];
};

function movements(laid: Laid, reach: number): Movement[] {
  const all: Movement[] = [];
  for (let periods = -reach; periods <= reach; periods += 1) {
    for (const half of laid.isHalfTurned === true ? [false, true] : [false]) {
      const on = periods + (half ? (laid.partnerShift ?? 0) : 0);
      all.push({ periods: on, turn: turned(on * (laid.turn ?? 0), half), isOwn: !half });
    }
  }
  return all;
}

/** A line through the given places in `count` even steps, without its end. */
export function evenly(places: readonly Place[], count: number): Place[] {
  const ways = [0];
  for (let i = 1; i < places.length; i += 1) ways.push(ways[i - 1]! + distance(places[i]!, places[i - 1]!));
  const whole = ways[ways.length - 1]!;
  let at = 0;
  return Array.from({ length: count }, (_, i): Place => {
    const way = (whole * i) / count;
    while (ways[at + 1]! < way) at += 1;
    const t = (way - ways[at]!) / (ways[at + 1]! - ways[at]!);
    const [a, b] = [places[at]!, places[at + 1]!];
    return [a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1]), a[2] + t * (b[2] - a[2])];
  });
}

interface Contact {
  readonly s: number;
  readonly i: number;
  readonly t: number;
  readonly j: number;
  readonly by: Movement;
}

/**
 * Pulls a laid weave tight: every strand is drawn in like a stretched thread, and wherever two centre lines
 * come closer than one diameter they are pushed apart, over and over, the pull easing off at the end. What
 * settles is the shortest line that round, smooth cords of that thickness can take at that pitch: nothing
 * of any closed form goes in. Only sums, products and roots are used, so that every machine settles alike.
 */
export function tighten(
  laid: Laid,
  settings: { readonly slack?: number; readonly rounds?: number; readonly touch?: number } = {},
): Tight {
  const slack = settings.slack ?? 1.8;
  const total = settings.rounds ?? rounds;
  const touch = settings.touch ?? 1;
  const own: Movement = { periods: 1, turn: turned(laid.turn ?? 0, false), isOwn: true };
  const back: Movement = { periods: -1, turn: turned(-(laid.turn ?? 0), false), isOwn: true };
  const reach = Math.ceil(4 / laid.period) + 1;
  const all = movements(laid, reach);
  let period = laid.period * slack;

  let lines: Place[][] = laid.strands.map((strand) => {
    const stretched = strand.map(([x, y, z]): Place => [x * slack, y, z]);
    const closed = [...stretched, move(stretched[0]!, own, period)];
    let way = 0;
    for (let i = 1; i < closed.length; i += 1) way += distance(closed[i]!, closed[i - 1]!);
    return evenly(closed, Math.max(16, Math.round(way / slack ** 0.5 / step)));
  });

  const neighbour = (line: readonly Place[], i: number): Place => {
    if (i < 0) return move(line[i + line.length]!, back, period);
    if (i >= line.length) return move(line[i - line.length]!, own, period);
    return line[i]!;
  };
  const lengthOf = (line: readonly Place[]): number => {
    let sum = 0;
    for (let i = 0; i < line.length; i += 1) sum += distance(line[i]!, neighbour(line, i + 1));
    return sum;
  };

  const contactsWithin = (near: number): Contact[] => {
    const found: Contact[] = [];
    const apart = lines.map((line) => Math.ceil((bend * touch * line.length) / lengthOf(line)));
    lines.forEach((other, t) => {
      for (const by of all) {
        other.forEach((place, j) => {
          const q = move(place, by, period);
          lines.forEach((line, s) => {
            for (let i = 0; i < line.length; i += 1) {
              const p = line[i]!;
              if (Math.abs(p[0] - q[0]) > near) continue;
              if (s === t && by.isOwn && Math.abs(i - j - by.periods * line.length) < apart[s]!) continue;
              if (distance(p, q) < near) found.push({ s, i, t, j, by });
            }
          });
        });
      }
    });
    return found;
  };

  const separate = (contacts: readonly Contact[]): void => {
    const next = lines.map((line) => line.map((p): [number, number, number] => [...p]));
    const shares = lines.map((line) => line.map(() => 1));
    for (const { s, i, t, j, by } of contacts) {
      const p = lines[s]![i]!;
      const q = move(lines[t]![j]!, by, period);
      const d = distance(p, q);
      if (d >= touch || d === 0) continue;
      const push = (0.5 * (touch - d)) / d;
      const to = next[s]![i]!;
      for (let k = 0; k < 3; k += 1) to[k]! += push * (p[k]! - q[k]!);
      shares[s]![i]! += 1;
    }
    lines = next.map((line) =>
      line.map((p): Place => {
        let [, y, z] = p;
        for (const [cy, cz] of laid.core) {
          const d = Math.sqrt((y - cy) ** 2 + (z - cz) ** 2);
          if (d >= touch || d === 0) continue;
          y = cy + (touch * (y - cy)) / d;
          z = cz + (touch * (z - cz)) / d;
        }
        return [p[0], y, z];
      }),
    );
  };

  let contacts: Contact[] = [];
  for (let round = 0; round < total; round += 1) {
    const done = round / total;
    const wanted = laid.period * (1 + (slack - 1) * Math.max(0, 1 - done / 0.4));
    const by = wanted / period;
    period = wanted;
    const pull = 0.5 * Math.min(1, Math.max(0, (1 - done) / 0.4)) ** 2 + 0.004;
    lines = lines.map((line) =>
      line
        .map(([x, y, z]): Place => [x * by, y, z])
        .map((p, i, moved): Place => {
          const a = neighbour(moved, i - 1);
          const b = neighbour(moved, i + 1);
          return [
            p[0] + pull * ((a[0] + b[0]) / 2 - p[0]),
            p[1] + pull * ((a[1] + b[1]) / 2 - p[1]),
            p[2] + pull * ((a[2] + b[2]) / 2 - p[2]),
          ];
        }),
    );
    if (round % 12 === 0) contacts = contactsWithin(1.45);
    for (let pass = 0; pass < 3; pass += 1) separate(contacts);
  }

  let closest = Number.POSITIVE_INFINITY;
  for (const { s, i, t, j, by } of contactsWithin(1.3)) {
    closest = Math.min(closest, distance(lines[s]![i]!, move(lines[t]![j]!, by, period)));
  }
  for (const line of lines) {
    for (const [, y, z] of line) {
      for (const [cy, cz] of laid.core) closest = Math.min(closest, Math.sqrt((y - cy) ** 2 + (z - cz) ** 2));
    }
  }

  const carry = (line: readonly Place[], periods: number, half: boolean): Place[] =>
    Array.from({ length: periods }, (_, m) => {
      const on = m + (half ? (laid.partnerShift ?? 0) : 0);
      const by: Movement = { periods: on, turn: turned(on * (laid.turn ?? 0), half), isOwn: !half };
      return line.map((p) => move(p, by, period));
    }).flat();
  return {
    lines: lines.map((line) => [...line, neighbour(line, line.length)]),
    lengths: lines.map(lengthOf),
    closest,
    carried: (periods) =>
      lines.flatMap((line) =>
        (laid.isHalfTurned === true ? [false, true] : [false]).map((half) => carry(line, periods, half)),
      ),
  };
}
