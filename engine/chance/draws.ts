import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';

/** Halves the first step of the grid that draws lie on: a quantile has no value at 0. */
const insteadOfZero = 2 ** -54;

/**
 * Independent series of numbers between 0 and 1, both excluded. The same seed gives the same numbers on any machine;
 * a longer series begins with the shorter one, and a further series leaves the others as they are.
 *
 * Source: xoroshiro128+ (Blackman and Vigna, 2018). Each series starts 2^64 steps after the one before.
 *
 * @param seed a whole number
 */
export function uniformSeries(seed: number, series: number, length: number): Float64Array[] {
  const start = xoroshiro128plus(seed);
  return Array.from({ length: series }, () => {
    const generator = start.clone();
    start.jump();
    return Float64Array.from({ length }, () => Math.max(uniformFloat64(generator), insteadOfZero));
  });
}
