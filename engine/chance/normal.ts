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

/*
 * Coefficients of a rational approximation to the inverse, good to about 9 digits; one step of Halley's rule on
 * `normalTail` makes the rest. Source: P. J. Acklam's fit (from memory); tests hold the result to `normalTail`.
 */
const middleAbove = [
  -39.69683028665376, 220.9460984245205, -275.9285104469687, 138.357751867269, -30.66479806614716,
  2.506628277459239,
] as const;
const middleBelow = [
  -54.47609879822406, 161.5858368580409, -155.6989798598866, 66.80131188771972, -13.28068155288572, 1,
] as const;
const endAbove = [
  -0.007784894002430293, -0.3223964580411365, -2.400758277161838, -2.549732539343734, 4.374664141464968,
  2.938163982698783,
] as const;
const endBelow = [0.007784695709041462, 0.3224671290700398, 2.445134137142996, 3.754408661907416, 1] as const;
const endsAt = 0.02425;

function polynomial(coefficients: readonly number[], x: number): number {
  return coefficients.reduce((sum, each) => sum * x + each, 0);
}

/** The value that a normal number of mean 0 and standard deviation 1 stays under with this chance (0 and 1 excluded). */
export function normalQuantile(chance: number): number {
  if (!(chance > 0 && chance < 1)) throw new RangeError(`No quantile for the chance ${chance}`);
  if (chance > 0.5) return -normalQuantile(1 - chance);
  let x: number;
  if (chance < endsAt) {
    const q = Math.sqrt(-2 * Math.log(chance));
    x = polynomial(endAbove, q) / polynomial(endBelow, q);
  } else {
    const q = chance - 0.5;
    x = (q * polynomial(middleAbove, q * q)) / polynomial(middleBelow, q * q);
  }
  const step = (normalTail(-x) - chance) / normalDensity(x);
  return x - step / (1 + (x * step) / 2);
}
