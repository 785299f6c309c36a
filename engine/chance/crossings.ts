/** A place where a function reaches zero, or jumps over it. */
export type Crossing =
  /** Zero at `at`, as near as doubles come. */
  | { readonly how: 'root'; readonly at: number; readonly value: number }
  /** Zero from `from` to `to`. */
  | { readonly how: 'plateau'; readonly from: number; readonly to: number }
  /** Never zero: two neighbouring doubles, and the value on either side. */
  | {
      readonly how: 'step';
      readonly before: number;
      readonly after: number;
      readonly valueBefore: number;
      readonly valueAfter: number;
    };

export interface Scan {
  readonly crossings: readonly Crossing[];
  /** Least and greatest value on the grid, and where; undefined where the function has no value anywhere. */
  readonly least: { readonly at: number; readonly value: number } | undefined;
  readonly greatest: { readonly at: number; readonly value: number } | undefined;
}

/** What counts as zero, as a share of the scale. */
const nothing = 1e-12;
/** A jump between two neighbouring doubles that is larger than this share of the scale is a step. */
const stepFrom = 1e-9;

/**
 * Finds every place where a function crosses zero, as far as a grid shows them: between two neighbours of unlike sign
 * the place is halved until it is as fine as a double can tell. Halving cannot fail, whatever rounding does to the
 * function.
 *
 * A function that has no value (NaN) somewhere is not followed through there.
 *
 * @param grid ascending; two places that lie closer together than its points may be missed
 * @param scale size of what is compared: a difference of a millionth of a millionth of it is none
 */
export function crossingsOf(f: (x: number) => number, grid: readonly number[], scale: number): Scan {
  const zero = nothing * scale;
  const sign = (value: number): number => (Math.abs(value) <= zero ? 0 : Math.sign(value));
  const points = grid
    .map((x) => ({ x, value: f(x) }))
    .filter(({ value }) => !Number.isNaN(value))
    .map((point): Point => ({ ...point, sign: sign(point.value) }));
  const crossings: Crossing[] = [];
  for (let at = 0; at < points.length; at += 1) {
    const here = points[at] as Point;
    const before = points[at - 1];
    if (here.sign === 0) {
      while (points[at + 1]?.sign === 0) at += 1;
      const from = before === undefined ? here.x : edge(f, sign, here.x, before.x);
      const end = points[at] as Point;
      const beyond = points[at + 1];
      const to = beyond === undefined ? end.x : edge(f, sign, end.x, beyond.x);
      crossings.push(asCrossing(f, from, to, here.x, grid));
    } else if (before !== undefined && before.sign !== 0 && before.sign !== here.sign) {
      const found = between(f, sign, before, here, scale, grid);
      if (found !== undefined) crossings.push(found);
    }
  }
  const sorted = [...points].sort((one, other) => one.value - other.value);
  const told = (point: Point | undefined) =>
    point === undefined ? undefined : { at: point.x, value: point.value };
  return { crossings, least: told(sorted[0]), greatest: told(sorted.at(-1)) };
}

interface Point {
  readonly x: number;
  readonly value: number;
  readonly sign: number;
}
type Sign = (value: number) => number;

/** The outermost place towards `outside` at which the function is still zero. */
function edge(f: (x: number) => number, sign: Sign, inside: number, outside: number): number {
  let [zero, other] = [inside, outside];
  for (let step = 0; step < 200; step += 1) {
    const middle = (zero + other) / 2;
    if (middle === zero || middle === other) break;
    if (sign(f(middle)) === 0) zero = middle;
    else other = middle;
  }
  return zero;
}

function asCrossing(
  f: (x: number) => number,
  from: number,
  to: number,
  at: number,
  grid: readonly number[],
): Crossing {
  const range = (grid.at(-1) as number) - (grid[0] as number);
  return to - from > 1e-6 * range ? { how: 'plateau', from, to } : { how: 'root', at, value: f(at) };
}

function between(
  f: (x: number) => number,
  sign: Sign,
  low: Point,
  high: Point,
  scale: number,
  grid: readonly number[],
): Crossing | undefined {
  let [a, b] = [
    { x: low.x, value: low.value },
    { x: high.x, value: high.value },
  ];
  for (let step = 0; step < 200; step += 1) {
    const middle = (a.x + b.x) / 2;
    if (middle <= a.x || middle >= b.x) break;
    const value = f(middle);
    if (Number.isNaN(value)) return undefined;
    const way = sign(value);
    if (way === 0) return asCrossing(f, edge(f, sign, middle, a.x), edge(f, sign, middle, b.x), middle, grid);
    if (way === low.sign) a = { x: middle, value };
    else b = { x: middle, value };
  }
  if (Math.abs(b.value - a.value) > stepFrom * scale)
    return { how: 'step', before: a.x, after: b.x, valueBefore: a.value, valueAfter: b.value };
  const nearer = Math.abs(a.value) <= Math.abs(b.value) ? a : b;
  return { how: 'root', at: nearer.x, value: nearer.value };
}
