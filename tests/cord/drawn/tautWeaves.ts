import {
  after,
  evenly,
  inverse,
  type Move,
  moved,
  type Place,
  repeated,
  shiftBy,
  type Taut,
  tauten,
  turnAbout,
  type Weave,
} from './tauten.ts';

/*
 * Weaves as a maker lays them: which strand goes over, under, round and through which, drawn loosely by
 * hand in cord diameters with the work along z. Where the cords end up is left to `tauten`.
 */

/** A weave, and the moves that carry its strand onto each of its strands, the first itself. */
export interface DrawnWeave extends Weave {
  readonly strands: readonly Move[];
}

/** Repeats before and behind that may come near. */
const repeats = [-3, -2, -1, 0, 1, 2, 3];

/**
 * A round braid: half the strands run round one way at even spacing, the others are their mirror images,
 * moved on so that they are under where the first are over.
 */
export function roundBraidWeave(strands: number, pitch: number, passes: number, core?: number): DrawnWeave {
  const step = 360 / strands;
  const next = turnAbout(2 * passes * step, passes * pitch);
  const hole = Math.max(core ?? 0, 1 / Math.sin((2 * Math.PI) / strands) - 1);
  const corners = Array.from({ length: 240 }, (_, i): Place => {
    const t = i / 240;
    const wave = 1.5 * Math.cos(2 * Math.PI * (t - (passes - 1) / (4 * passes)));
    const r = 1.3 + hole / 2 + 0.6 * Math.max(-1, Math.min(1, wave));
    const turn = (2 * passes * step * t * Math.PI) / 180;
    return [r * Math.cos(turn), r * Math.sin(turn), t * passes * pitch];
  });
  const mirror: Move = {
    rows: [
      [1, 0, 0],
      [0, -1, 0],
      [0, 0, 1],
    ],
    shift: [0, 0, 0],
  };
  const opposite = after(inverse(turnAbout(passes * step, (passes * pitch) / 2)), mirror);
  const rounds = Array.from({ length: strands / 2 }, (_, k) => turnAbout(2 * k * step));
  const others = repeats.flatMap((m) =>
    rounds.flatMap((round, k) => [
      ...(k > 0 ? [after(repeated(next, m), round)] : []),
      after(after(repeated(next, m), opposite), round),
    ]),
  );
  const points = evenly(corners, next, 36 * passes);
  const all = [...rounds, ...rounds.map((round) => after(opposite, round))];
  return { points, next, others, strands: all, ...(core === undefined ? {} : { core }) };
}

/**
 * A crown sinnet: the strands lie along the sides of a regular shape, each over the first and under the
 * second that it crosses, and turn up at the end. In a box sinnet the next crown is the mirror image; in a
 * round one (`turnDegrees` given) the same crown, turned.
 */
export function crownWeave(strands: number, pitch: number, turnDegrees?: number): DrawnWeave {
  const aside = 1.3 / Math.min(1, Math.tan(Math.PI / strands));
  const half = aside * Math.tan(Math.PI / strands);
  const mirror: Move = {
    rows: [
      [1, 0, 0],
      [0, -1, 0],
      [0, 0, 1],
    ],
    shift: [0, 0, pitch],
  };
  const layer = turnDegrees === undefined ? mirror : turnAbout(turnDegrees, pitch);
  const next = turnDegrees === undefined ? mirror : turnAbout(720 / strands + turnDegrees, pitch);
  const isOwn = (k: number, m: number): boolean =>
    turnDegrees === undefined ? k === 0 : (k - 2 * m) % strands === 0;
  const others = repeats.flatMap((m) =>
    Array.from({ length: strands }, (_, k) => k)
      .filter((k) => !isOwn(k, m))
      .map((k) => after(repeated(layer, m), turnAbout((360 * k) / strands))),
  );
  const corners: readonly Place[] = [
    [-aside, half + 1.2, 0.5 - pitch / 2],
    [-aside, half, 1],
    [-aside, -half, 0],
  ];
  const all = Array.from({ length: strands }, (_, k) => turnAbout((360 * k) / strands));
  return { points: evenly(corners, next, 64), next, others, strands: all };
}

/** A plain chain: through the loop before, up, round the two legs to come, down, back through, on behind. */
export function chainWeave(pitch: number): DrawnWeave {
  const next = shiftBy(0, 0, pitch);
  const corners = (
    [
      [-0.5, 0, 0],
      [-0.9, 0.9, 0.55],
      [-1.5, 0.3, 1],
      [-0.8, -0.1, 1.5],
      [0, -0.2, 1.65],
      [0.8, -0.1, 1.5],
      [1.5, 0.3, 1],
      [0.9, 0.9, 0.55],
      [0.5, 0, 0],
      [0.4, -0.9, 0.3],
      [-0.4, -0.9, 0.7],
    ] as const
  ).map(([x, y, z]): Place => [1.3 * x, 1.3 * y, z * pitch]);
  return { points: evenly(corners, next, 90), next, others: [], strands: [shiftBy(0, 0, 0)] };
}

/**
 * Snake knots: a cord comes up through the other's loop, goes round the other cord, comes down outside,
 * hooks under that loop and up through it again. The other cord does the same half a knot on.
 */
export function snakeWeave(pitch: number): DrawnWeave {
  const next = shiftBy(0, 0, pitch);
  const partner = turnAbout(180, pitch / 2);
  const corners = (
    [
      [-0.6, -0.55, 0],
      [-0.3, -1.3, 0.35],
      [0.6, -1.6, 0.5],
      [1.7, 0, 0.5],
      [0.6, 1.6, 0.5],
      [-0.6, 1.8, 0.45],
      [-2.3, 1, 0.25],
      [-2.7, 0.5, 0],
      [-1.8, 0.3, -0.25],
      [-0.6, 0.55, 0],
      [-0.6, 0, 0.6],
    ] as const
  ).map(([x, y, z]): Place => [1.2 * x, 1.2 * y, z * pitch]);
  const others = [-4, -3, -2, -1, 0, 1, 2, 3].map((m) => after(partner, shiftBy(0, 0, m * pitch)));
  return { points: evenly(corners, next, 100), next, others, strands: [shiftBy(0, 0, 0), partner] };
}

/** A flat plait, over one, under one: from edge to edge and back, each strand a bight behind the one before. */
export function plaitWeave(strands: number, pitch: number): DrawnWeave {
  const half = (strands * pitch) / 2;
  const wide = 1.1 * (strands - 1);
  const corners = [0, 1].flatMap((back): readonly Place[] =>
    Array.from({ length: strands }, (_, k): Place => {
      const way = (k * pitch) / 2 / half;
      // At the edge (k = 0) it changes sides; then it meets the others over and under by turns.
      const meeting = back * (strands - 1) + k - 1;
      return [
        k === 0 ? 0 : meeting % 2 === 0 ? 0.55 : -0.55,
        wide * (back === 0 ? way : 1 - way),
        (back + way) * half,
      ];
    }),
  );
  const next = shiftBy(0, 0, strands * pitch);
  const others = Array.from({ length: 6 * strands + 1 }, (_, i) => i - 3 * strands)
    .filter((k) => k % strands !== 0)
    .map((k) => shiftBy(0, 0, k * pitch));
  const all = Array.from({ length: strands }, (_, k) => shiftBy(0, 0, k * pitch));
  return { points: evenly(corners, next, 20 * strands), next, others, strands: all };
}

/** Pulls a weave taut at a loose pitch first, and then at closer ones, so that no cord slips through another. */
export function tautenedDown(weaveAt: (pitch: number) => Weave, pitches: readonly number[]): readonly Taut[] {
  let held: { readonly points: readonly Place[]; readonly pitch: number } | undefined;
  return pitches.map((pitch) => {
    const weave = weaveAt(pitch);
    const points = held?.points.map(([x, y, z]): Place => [x, y, (z * pitch) / held!.pitch]);
    const taut = tauten(
      points === undefined ? weave : { ...weave, points },
      points === undefined ? 3000 : 1500,
    );
    held = { points: taut.points, pitch };
    return taut;
  });
}

/** One strand's line over the repeats `from` to `to`, for a figure: along the work, across it, towards the eye. */
export function lineOf(
  { next }: Weave,
  { points }: Taut,
  [from, to]: readonly [number, number],
  by: Move,
): readonly Place[] {
  const line = Array.from({ length: to - from + 1 }, (_, i) => after(repeated(next, from + i), by)).flatMap(
    (move) => points.map((p) => moved(move, p)),
  );
  const end = moved(after(repeated(next, to + 1), by), points[0]!);
  return [...line, end].map(([x, y, z]) => [z, x, y]);
}
