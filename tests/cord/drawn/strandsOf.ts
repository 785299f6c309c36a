import type { Place, Strand, Tone } from '../../support/drawnFigure.ts';
import { straight } from './straight.ts';
import { type Laid, tighten } from './tighten.ts';

/** Places by which one period goes on into the next, so that a line round the core closes. */
const joined = 8;

interface DrawnWeave {
  /** Core, then every cord of the weave, over enough periods to run past both ends of a window from 0. */
  readonly strands: readonly Strand[];
  /** The same over one period alone, for a view from the end. */
  readonly onePeriod: readonly Strand[];
}

/**
 * A weave pulled tight, as strands for a figure `length` diameters long; hard round cord, unless cords press on
 * one another to `touch` of a diameter: then they are drawn so thin.
 */
export function strandsOf(laid: Laid, tones: readonly Tone[], length: number, touch = 1): DrawnWeave {
  const tight = tighten(laid, { touch });
  // Cords with long bights reach well beyond their own period.
  const before = 2;
  const moved = ([x, y, z]: Place): Place => [x - before * laid.period, y, z];
  const toned = (lines: readonly (readonly Place[])[]): Strand[] =>
    lines.map((line, i) => ({ tone: tones[i]!, line: line.map(moved), thick: touch }));
  const core = laid.core.map(
    (place): Strand => ({ tone: 'core', line: straight(place, -4, length + 4), thick: touch }),
  );
  return {
    strands: [...core, ...toned(tight.carried(Math.ceil(length / laid.period) + 2 * before))],
    onePeriod: [...core, ...toned(tight.carried(2).map((line) => line.slice(0, line.length / 2 + joined)))],
  };
}
