import { bar } from './bar.ts';
import { braid } from './braid.ts';
import type { CordFunction } from './cordFunction.ts';
import { hitch } from './hitch.ts';
import { plait } from './plait.ts';
import { slot } from './slot.ts';
import { wrap } from './wrap.ts';

export type { CordFunction } from './cordFunction.ts';

/** Every cord function that a formula sheet may call. Geometry only: nothing of products or money. */
export const cordFunctions: readonly CordFunction[] = Object.freeze([bar, wrap, braid, plait, hitch, slot]);
