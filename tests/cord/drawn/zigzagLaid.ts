import type { Place } from '../../support/drawnFigure.ts';
import { flatCore } from './flatCore.ts';
import type { Laid } from './tighten.ts';

/**
 * A zig-zag weave, two passes a period: one cord goes over and under straight core strands by turns, round
 * the last one, and back the other way, under where it was over. `apart` is the way from strand to strand.
 */
export function zigzagLaid(core: number, pitch: number, apart: number): Laid {
  const half = ((core - 1) / 2) * apart;
  const pass = (at: 0 | 1): Place[] => {
    const side = at === 0 ? 1 : -1;
    return [
      [(at - 0.5) * pitch, -side * (half + 1.4), 0],
      ...Array.from({ length: core }, (_, j): Place => {
        const fromLeft = at === 0 ? j : core - 1 - j;
        const along = (j + 0.5) / core - 0.5;
        return [
          (at + along * 0.7) * pitch,
          side * (j * apart - half),
          (fromLeft + at) % 2 === 0 ? 1.4 : -1.4,
        ];
      }),
    ];
  };
  return { period: 2 * pitch, strands: [[...pass(0), ...pass(1)]], core: flatCore(core, apart) };
}
