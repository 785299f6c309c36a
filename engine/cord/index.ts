import { band } from './band.ts';
import { bar } from './bar.ts';
import { braid } from './braid.ts';
import { chain } from './chain.ts';
import type { CordFunction } from './cordFunction.ts';
import { crown } from './crown.ts';
import { hitch } from './hitch.ts';
import { plait } from './plait.ts';
import { roundBraid } from './roundBraid.ts';
import { slipLoop } from './slipLoop.ts';
import { slot } from './slot.ts';
import { snake } from './snake.ts';
import { spareFactor } from './spareFactor.ts';
import { spareLeft } from './spareLeft.ts';
import { stripe } from './stripe.ts';
import { twist } from './twist.ts';
import { wrap } from './wrap.ts';
import { zigzag } from './zigzag.ts';

export type { CordFunction } from './cordFunction.ts';

/**
 * Every cord function that a formula sheet may call: geometry, and the chance of running short. Nothing of
 * products or money.
 */
export const cordFunctions: readonly CordFunction[] = Object.freeze([
  bar,
  twist,
  stripe,
  band,
  slipLoop,
  zigzag,
  wrap,
  roundBraid,
  plait,
  crown,
  chain,
  snake,
  braid,
  hitch,
  slot,
  spareFactor,
  spareLeft,
]);
