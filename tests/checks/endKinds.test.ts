import Papa from 'papaparse';
import { describe, expect, it } from 'vitest';
import { hitch } from '../../engine/cord/hitch.ts';
import { wrap } from '../../engine/cord/wrap.ts';
import { shipped } from '../support/books.ts';

const kinds = new Map(
  Papa.parse<Record<string, string>>(shipped.tables.get('end_kinds.csv') ?? '', {
    header: true,
    skipEmptyLines: true,
  }).data.map((row) => [row.end, { fixed: Number(row.cord_diameters), perSize: Number(row.per_size) }]),
);

/** Cord for one end of a kind, cord and size in one unit. */
function takes(end: string, diameter: number, size = 0): number {
  const kind = kinds.get(end);
  return kind === undefined ? Number.NaN : kind.fixed * diameter + kind.perSize * size;
}

/** Length of a curve that is drawn through points close to each other. */
function drawn(point: (t: number) => readonly [number, number]): number {
  const steps = 20_000;
  let length = 0;
  for (let at = 1; at <= steps; at += 1) {
    const [x, y] = point((at - 1) / steps);
    const [u, v] = point(at / steps);
    length += Math.hypot(u - x, v - y);
  }
  return length;
}

describe('the shipped end kinds', () => {
  /*
   * Ashley Book of Knots, no. 2728, for the strand of a thimble eye: once the round of the thimble and once the
   * round of the rope. The round of a flat eye of inside length L is 2 L, that of the rope pi d.
   */
  it.each([
    [4, 50],
    [2, 30],
    [5, 180],
  ])(
    'a joined eye takes once its round and once the round of the cord: %d mm cord, %d mm inside',
    (d, inside) => {
      expect(takes('joined eye', d, inside)).toBeCloseTo(2 * inside + Math.PI * d, 1);
    },
  );

  // The centre line of a cord of diameter d round a flat opening: two straight legs and two half circles of radius d/2.
  it('a joined eye is as long as its centre line when that is drawn and measured', () => {
    const [d, inside] = [4, 60];
    const halfCircle = drawn((t) => [(d / 2) * Math.cos(Math.PI * t), (d / 2) * Math.sin(Math.PI * t)]);
    expect(takes('joined eye', d, inside)).toBeCloseTo(2 * inside + 2 * halfCircle, 1);
  });

  it('spliced and buried eyes take more than the joined one, by whole tucks', () => {
    expect(takes('eye splice 5', 1) - takes('eye splice 3', 1)).toBeCloseTo(2 * 2.5, 9);
    // Ashley, no. 2725: what is left of an end is trimmed one diameter long.
    expect(takes('eye splice 3', 1) - takes('joined eye', 1)).toBeCloseTo(3 * 2.5 + 1, 9);
    expect(takes('buried eye', 1) - takes('joined eye', 1)).toBeCloseTo(20, 9);
  });

  /*
   * Ideal (closed, tightest) trefoil 16.37 and figure-eight 21.04 diameters: Knot Atlas, "Ropelength", from memory
   * for the second. An open knot is untied at one place and so takes less, but more than its crossings' round turn.
   */
  it('stop knots take less than the ideal closed knot and more than one round turn', () => {
    expect(takes('overhand knot', 1)).toBeLessThan(16.37);
    expect(takes('figure-eight knot', 1)).toBeLessThan(21.04);
    expect(takes('figure-eight knot', 1)).toBeGreaterThan(takes('overhand knot', 1));
    expect(takes('overhand knot', 1)).toBeGreaterThan(2 * Math.PI);
  });

  it('a half hitch is one turn of the sheets’ own hitch and a crossing of one diameter', () => {
    for (const [d, bar] of [
      [4, 4],
      [4, 6],
      [2, 25],
    ] as const) {
      expect(Math.abs(takes('half hitch', d, bar) - (hitch.compute(1, bar, d) + d))).toBeLessThan(0.05);
      expect(Math.abs(takes('two half hitches', d, bar) - 2 * (hitch.compute(1, bar, d) + d))).toBeLessThan(
        0.1,
      );
    }
  });

  it('a whipping is the sheets’ own close wrap over its width and two runs buried under it', () => {
    for (const [name, strands] of [
      ['whipping of four', 4],
      ['whipping of eight', 8],
    ] as const) {
      expect(takes(name, 4, 10)).toBeCloseTo((wrap.compute(strands, 1) + 2) * 10, 1);
    }
  });

  it('each take cord, and a size where they are a loop, a splice, a hitch or a whipping', () => {
    const table = Papa.parse<Record<string, string>>(shipped.tables.get('end_kinds.csv') ?? '', {
      header: true,
      skipEmptyLines: true,
    }).data;
    for (const row of table) {
      expect(takes(row.end ?? '', 4, 50), row.end).toBeGreaterThan(0);
      expect(Number(row.per_size) > 0, row.end).toBe(row.use !== 'stop knot');
      expect(row.size_is !== '', row.end).toBe(Number(row.per_size) > 0);
      expect(row.source, row.end).toMatch(/^(Estimated|Geometry)/);
    }
  });
});
