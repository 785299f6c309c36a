/** A point in the plane across the cords, in cord diameters. */
export type Point = readonly [x: number, y: number];

/** The first `count` centres of a triangular packing, filled ring by ring about the middle one. */
export function packedCentres(count: number): readonly Point[] {
  const centres: Point[] = [[0, 0]];
  for (let ring = 1; centres.length < count; ring += 1) {
    let [x, y]: Point = [ring, 0];
    for (let side = 2; side <= 7; side += 1) {
      for (let step = 0; step < ring; step += 1) {
        x += Math.cos((side * Math.PI) / 3);
        y += Math.sin((side * Math.PI) / 3);
        centres.push([x, y]);
      }
    }
  }
  return centres.slice(0, count);
}

/** Outline of the hull of some points, by Cauchy: the extent in every direction, summed over a full turn. */
export function hullLength(points: readonly Point[], directions = 20_000): number {
  let sum = 0;
  for (let i = 0; i < directions; i += 1) {
    const angle = (2 * Math.PI * (i + 0.5)) / directions;
    sum += Math.max(...points.map(([x, y]) => x * Math.cos(angle) + y * Math.sin(angle)));
  }
  return (sum * 2 * Math.PI) / directions;
}

function toSegment([x, y]: Point, [ax, ay]: Point, [bx, by]: Point): number {
  const squared = (bx - ax) ** 2 + (by - ay) ** 2;
  const along = squared === 0 ? 0 : ((x - ax) * (bx - ax) + (y - ay) * (by - ay)) / squared;
  const t = Math.min(1, Math.max(0, along));
  return Math.hypot(x - ax - t * (bx - ax), y - ay - t * (by - ay));
}

/** Distance of a point from a convex shape whose corners run anticlockwise; 0 within it. */
function away(point: Point, corners: readonly Point[]): number {
  let nearest = Number.POSITIVE_INFINITY;
  let within = corners.length > 2;
  corners.forEach((a, i) => {
    const b = corners[(i + 1) % corners.length]!;
    nearest = Math.min(nearest, toSegment(point, a, b));
    within &&= (b[0] - a[0]) * (point[1] - a[1]) - (b[1] - a[1]) * (point[0] - a[0]) >= 0;
  });
  return within ? 0 : nearest;
}

/**
 * The closed curve that keeps `offset` away from a convex shape about the origin, found by searching along
 * rays for that distance: no formula for its length is used. First and last point are the same.
 */
export function offsetCurve(corners: readonly Point[], offset: number, rays = 12_000): readonly Point[] {
  const reach = Math.max(...corners.map(([x, y]) => Math.hypot(x, y)));
  return Array.from({ length: rays + 1 }, (_, i): Point => {
    const [c, s] = [Math.cos((2 * Math.PI * i) / rays), Math.sin((2 * Math.PI * i) / rays)];
    let [near, far] = [0, reach + offset];
    for (let halving = 0; halving < 45; halving += 1) {
      const middle = (near + far) / 2;
      if (away([middle * c, middle * s], corners) < offset) near = middle;
      else far = middle;
    }
    return [near * c, near * s];
  });
}

/** Length of a line of points in any number of dimensions. */
export function polylineLength(points: readonly (readonly number[])[]): number {
  let length = 0;
  for (let i = 1; i < points.length; i += 1) {
    length += Math.hypot(...points[i]!.map((value, axis) => value - points[i - 1]![axis]!));
  }
  return length;
}

/** Lifts a flat curve into a climb that is even along the curve, as a cord under even tension lies. */
export function climbing(flat: readonly Point[], climb: number): readonly (readonly number[])[] {
  const whole = polylineLength(flat);
  let gone = 0;
  return flat.map(([x, y], i) => {
    if (i > 0) gone += Math.hypot(x - flat[i - 1]![0], y - flat[i - 1]![1]);
    return [x, y, (climb * gone) / whole];
  });
}
