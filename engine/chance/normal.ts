/** Density of the normal distribution of mean 0 and standard deviation 1. */
export function normalDensity(x: number): number {
  return Math.exp(-(x * x) / 2) / Math.sqrt(2 * Math.PI);
}

/** Beyond this the fraction converges faster than the series, and a tail keeps all its digits. */
const farOut = 3;

/**
 * Chance that a normal number is more than x, to about 14 digits even far out.
 *
 * Source: near the middle Φ(x) = 1/2 + φ(x) (x + x³/3 + x⁵/(3·5) + ...), whose terms are all of one sign;
 * further out Laplace's continued fraction φ(x) / (x + 1/(x + 2/(x + 3/(x + ...)))). Both textbook (from
 * memory); tests hold the results to printed tables.
 */
export function normalTail(x: number): number {
  if (x < 0) return 1 - normalTail(-x);
  if (x < farOut) {
    let sum = 0;
    let term = x;
    for (let odd = 3; sum + term > sum; odd += 2) {
      sum += term;
      term *= (x * x) / odd;
    }
    return 0.5 - normalDensity(x) * sum;
  }
  let fraction = x;
  for (let k = 100; k >= 1; k -= 1) fraction = x + k / fraction;
  return normalDensity(x) / fraction;
}
