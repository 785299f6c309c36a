import { type Exact, exact } from './exact.ts';

/**
 * Shares a whole number of coins out by weights so that the shares add up to it exactly: everyone gets the whole
 * coins of their share, and those with the largest remainders one more (Hamilton's method). Of equal remainders the
 * earlier one gets it. A negative total is shared out as its opposite.
 *
 * @param weights zero or more each; not all of them zero
 */
export function splitCoins(total: number, weights: readonly (number | Exact)[]): number[] {
  const shares = weights.map((weight) => exact(weight));
  const sum = shares.reduce((so, each) => so.plus(each), exact(0));
  if (!Number.isSafeInteger(total)) throw new Error(`${total} is not a whole number of coins`);
  if (shares.some((each) => each.isNegative()) || !sum.gt(0))
    throw new Error('Weights are zero or more, and not all of them zero');
  const size = Math.abs(total);
  // Multiplied before divided: quota and remainder are then whole numbers over the one sum, and ties are ties.
  const products = shares.map((share) => share.times(size));
  const floors = products.map((product) => product.divToInt(sum));
  const remainders = products.map((product, at) => product.minus(floors[at]!.times(sum)));
  let left = size - floors.reduce((so, each) => so + each.toNumber(), 0);
  // Sorting keeps the order of equals.
  const order = remainders
    .map((remainder, at) => ({ remainder, at }))
    .sort((one, other) => other.remainder.cmp(one.remainder));
  const more = new Set<number>();
  for (const { at } of order) {
    if (left === 0) break;
    more.add(at);
    left -= 1;
  }
  return floors.map((floor, at) => Math.sign(total) * (floor.toNumber() + (more.has(at) ? 1 : 0)) + 0);
}
