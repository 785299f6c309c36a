import { bar } from './bar.ts';
import { braid } from './braid.ts';
import type { CordFunction } from './cordFunction.ts';
import { hitch } from './hitch.ts';
import { plait } from './plait.ts';
import { slot } from './slot.ts';
import { spareFactor } from './spareFactor.ts';
import { spareLeft } from './spareLeft.ts';
import { wrap } from './wrap.ts';

export type { CordFunction } from './cordFunction.ts';

/**
 * Every cord function that a formula sheet may call: geometry, and the chance of running short. Nothing of
 * products or money.
 */
export const cordFunctions: readonly CordFunction[] = Object.freeze([
  bar,
  wrap,
  braid,
  plait,
  hitch,
  slot,
  spareFactor,
  spareLeft,
]);
