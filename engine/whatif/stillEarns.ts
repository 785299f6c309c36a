/** Rounded coins move a margin a little without anyone having changed anything. */
const coinNoise = 1e-9;

/**
 * Whether an asking price that is set by hand may stay as it is: it still earns the margin that it earns today.
 *
 * @param marginThen margin at that price after a change; both as ratios
 */
export function stillEarns(marginThen: number, marginToday: number): boolean {
  return marginThen >= marginToday - coinNoise;
}
