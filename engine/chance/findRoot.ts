/**
 * Where a monotone function is zero, by halving a bracket until it is as fine as a double can tell.
 * Halving is slower than the cleverer methods and cannot fail; a fit asks for a few dozen roots.
 *
 * @returns undefined where the function does not change its sign between the two ends, or has no value there.
 */
export function findRoot(f: (x: number) => number, low: number, high: number): number | undefined {
  let [from, to] = [low, high];
  const [atLow, atHigh] = [f(low), f(high)];
  if (atLow === 0) return low;
  if (atHigh === 0) return high;
  if (!(Math.sign(atLow) * Math.sign(atHigh) < 0)) return undefined;
  for (let step = 0; step < 200; step += 1) {
    const middle = (from + to) / 2;
    if (middle <= from || middle >= to) return middle;
    const value = f(middle);
    if (value === 0) return middle;
    if (Math.sign(value) === Math.sign(atLow)) from = middle;
    else to = middle;
  }
  return (from + to) / 2;
}
