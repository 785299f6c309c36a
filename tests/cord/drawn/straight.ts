import type { Place } from '../../support/drawnFigure.ts';

/** A strand that lies straight along the work, from one place along it to another. */
export function straight([y, z]: readonly [y: number, z: number], from: number, to: number): Place[] {
  const steps = Math.ceil((to - from) / 0.3);
  return Array.from({ length: steps + 1 }, (_, i): Place => [from + ((to - from) * i) / steps, y, z]);
}
