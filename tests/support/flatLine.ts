/** A place of a flat drawing: right, up, and how near it is to the eye. */
export type Flat = readonly [right: number, up: number, near: number];

interface Window {
  readonly right: readonly [number, number];
  readonly up: readonly [number, number];
}

/** The parts of a line that lie in a window. */
export function within(line: readonly Flat[], { right, up }: Window): readonly Flat[][] {
  const parts: Flat[][] = [];
  let part: Flat[] = [];
  for (const place of line) {
    const isIn = place[0] >= right[0] && place[0] <= right[1] && place[1] >= up[0] && place[1] <= up[1];
    if (isIn) part.push(place);
    if (!isIn && part.length > 0) {
      parts.push(part);
      part = [];
    }
  }
  parts.push(part);
  return parts.filter((each) => each.length > 1);
}

/** A smooth line through the places (Catmull and Rom), in steps of about a twelfth of a diameter. */
export function finely(line: readonly Flat[]): readonly Flat[] {
  const at = (i: number): Flat => line[Math.min(Math.max(i, 0), line.length - 1)]!;
  return line.flatMap((place, i) => {
    if (i + 1 === line.length) return [place];
    const [before, next, after] = [at(i - 1), at(i + 1), at(i + 2)];
    const way = Math.hypot(next[0] - place[0], next[1] - place[1], next[2] - place[2]);
    const count = Math.max(1, Math.round(way * 12));
    return Array.from({ length: count }, (_, k): Flat => {
      const t = k / count;
      const smooth = (axis: 0 | 1 | 2): number => {
        const [a, b, c, d] = [before[axis], place[axis], next[axis], after[axis]];
        return b + 0.5 * t * (c - a + t * (2 * a - 5 * b + 4 * c - d + t * (3 * (b - c) + d - a)));
      };
      return [smooth(0), smooth(1), smooth(2)];
    });
  });
}

/** The same line with fewer places, none of those left out farther from it than `off` (Douglas and Peucker). */
export function fewer(line: readonly Flat[], off: number): readonly Flat[] {
  if (line.length < 3) return line;
  const [a, b] = [line[0]!, line[line.length - 1]!];
  const squared = (b[0] - a[0]) ** 2 + (b[1] - a[1]) ** 2;
  let farthest = 0;
  let split = 0;
  line.forEach((p, i) => {
    const way = squared === 0 ? 0 : ((p[0] - a[0]) * (b[0] - a[0]) + (p[1] - a[1]) * (b[1] - a[1])) / squared;
    const t = Math.min(1, Math.max(0, way));
    const away = Math.hypot(p[0] - a[0] - t * (b[0] - a[0]), p[1] - a[1] - t * (b[1] - a[1]));
    if (away > farthest) [farthest, split] = [away, i];
  });
  if (farthest <= off) return [a, b];
  return [...fewer(line.slice(0, split + 1), off).slice(0, -1), ...fewer(line.slice(split), off)];
}
