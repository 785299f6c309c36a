/**
 * Whether an asking price that is set by hand must rise to keep its margin; it never comes down. A file of its own, as
 * the page carries it too.
 *
 * @param keeping the price, with its ending, that keeps the margin
 * @param asking the price set by hand
 */
export function mustRise(keeping: number, asking: number): boolean {
  return keeping > asking;
}
