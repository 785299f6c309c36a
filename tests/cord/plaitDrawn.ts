/** One meeting of the drawn strand with another, and how high each lies there (in cord diameters). */
export interface Crossing {
  readonly height: number;
  readonly otherHeight: number;
}

export interface PlaitDrawn {
  /** Length of the strand per length of plait. */
  readonly ratio: number;
  /** From outer side to outer side, in cord diameters. */
  readonly width: number;
  readonly crossings: readonly Crossing[];
}

/**
 * Draws one strand of a flat plait and finds its crossings by laying shifted copies of it over it; nothing
 * is taken from the closed form. Seen from above the strand runs at the angle, and within half a bight of
 * an edge it turns evenly, so that the sine of its heading falls in proportion to the way along the plait.
 * Strand j is the same strand moved on by j bights. Heights are +1/2 and -1/2 at successive crossings,
 * straight in between along the strand.
 */
export function plaitDrawn(strands: number, angleDegrees: number, bight: number, fine = 1500): PlaitDrawn {
  const a = (angleDegrees * Math.PI) / 180;
  const perBight = 2 * fine;
  const count = strands * perBight;
  const step = bight / perBight;
  const half = (strands * bight) / 2;

  // Sideways way per step: the left edge is at 0, the right edge at half a period.
  const aside = Array.from({ length: count }, (_, i) => {
    const along = (i + 0.5) * step;
    const fromLeft = Math.min(along, 2 * half - along);
    const fromEdge = Math.min(fromLeft, half - fromLeft);
    const heading = fromEdge < bight / 2 ? Math.asin((Math.sin(a) * 2 * fromEdge) / bight) : a;
    return (along < half ? 1 : -1) * step * Math.tan(heading);
  });
  // Sideways place at the middle of each step, so that no crossing falls on a sample.
  let place = 0;
  const across = aside.map((way) => {
    place += way;
    return place - way / 2;
  });

  const at = (i: number): number => across[((i % count) + count) % count]!;
  const meets = (i: number): number | undefined => {
    for (let j = 1; j < strands; j += 1) {
      const before = at(i) - at(i - j * perBight);
      const after = at(i + 1) - at(i + 1 - j * perBight);
      if (before * after < 0) return j;
    }
    return undefined;
  };
  const found = Array.from({ length: count }, (_, i) => ({ i, other: meets(i) })).filter(
    (each): each is { i: number; other: number } => each.other !== undefined,
  );

  const level = new Map(found.map(({ i }, order) => [i, order % 2 === 0 ? 0.5 : -0.5]));
  // The other strand is this one moved on: its height here is this one's, that many bights back.
  const crossings = found.map(({ i, other }) => {
    const back = (((i - other * perBight) % count) + count) % count;
    return { height: level.get(i)!, otherHeight: level.get(back) ?? Number.NaN };
  });

  let length = 0;
  found.forEach(({ i }, order) => {
    const next = found[(order + 1) % found.length]!.i + (order + 1 === found.length ? count : 0);
    let flat = 0;
    for (let s = i; s < next; s += 1) flat += Math.hypot(step, at(s + 1) - at(s));
    // Even climb along the strand: one more leg of a right triangle, taken step by step.
    const climb = 1 / flat;
    for (let s = i; s < next; s += 1) {
      const piece = Math.hypot(step, at(s + 1) - at(s));
      length += Math.hypot(step, at(s + 1) - at(s), piece * climb);
    }
  });
  const width = Math.max(...across) - Math.min(...across) + 1;
  return { ratio: length / (count * step), width, crossings };
}
