import { findRoot } from './findRoot.ts';
import { normalTail } from './normal.ts';

/**
 * Student's t and the normal distribution, as far as a fit needs them. Nothing of the kind is among the
 * project's packages, and a page of code is less than a dependency.
 * Source: the incomplete beta function by its continued fraction (Lentz's method) and the logarithm of the
 * gamma function by Lanczos' sum, both textbook (from memory); tests hold the results to printed tables.
 */

const lanczos = [
  676.5203681218851, -1259.1392167224028, 771.32342877765313, -176.61502916214059, 12.507343278686905,
  -0.13857109526572012, 9.9843695780195716e-6, 1.5056327351493116e-7,
] as const;

/** Logarithm of the gamma function, for arguments from 0.5. */
function logGamma(x: number): number {
  const z = x - 1;
  const sum = lanczos.reduce((total, each, at) => total + each / (z + at + 1), 0.99999999999980993);
  const t = z + 7.5;
  return 0.5 * Math.log(2 * Math.PI) + (z + 0.5) * Math.log(t) - t + Math.log(sum);
}

/** The regularised incomplete beta function. */
function incompleteBeta(x: number, a: number, b: number): number {
  if (x <= 0) return 0;
  if (x >= 1) return 1;
  // The fraction converges quickly on one side of the mean only; the other side is its mirror image.
  if (x > (a + 1) / (a + b + 2)) return 1 - incompleteBeta(1 - x, b, a);
  const front = Math.exp(logGamma(a + b) - logGamma(a) - logGamma(b) + a * Math.log(x) + b * Math.log(1 - x));
  const tiny = 1e-300;
  const kept = (value: number): number => (Math.abs(value) < tiny ? tiny : value);
  let c = 1;
  let d = 1 / kept(1 - ((a + b) * x) / (a + 1));
  let fraction = d;
  for (let m = 1; m < 500; m += 1) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m));
    d = 1 / kept(1 + even * d);
    c = kept(1 + even / c);
    fraction *= d * c;
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1));
    d = 1 / kept(1 + odd * d);
    c = kept(1 + odd / c);
    fraction *= d * c;
    if (Math.abs(d * c - 1) < 1e-15) break;
  }
  return (front * fraction) / a;
}

/** From here on t is taken for the normal distribution: they differ by less than a millionth. */
export const manyDegrees = 1_000_000;

/** Chance that Student's t with these degrees of freedom (1 or more, Infinity for the normal) is more than x. */
function studentTail(x: number, degrees: number): number {
  if (degrees >= manyDegrees) return normalTail(x);
  const tail = 0.5 * incompleteBeta(degrees / (degrees + x * x), degrees / 2, 0.5);
  return x < 0 ? 1 - tail : tail;
}

/** Chance that Student's t with these degrees of freedom is at most x. */
export function studentChance(x: number, degrees: number): number {
  return studentTail(-x, degrees);
}

/** The value that Student's t stays under with this chance (0 to 1, ends excluded). */
export function studentQuantile(chance: number, degrees: number): number {
  if (!(chance > 0 && chance < 1 && degrees >= 1)) throw new RangeError(`No t for ${chance}, ${degrees}`);
  return chance < 0.5 ? -studentExceeded(chance, degrees) : studentExceeded(1 - chance, degrees);
}

/**
 * The value that Student's t exceeds with this chance, above 0 and at most a half. Asked by the small side,
 * a small chance keeps its digits: 1 - 0.0001 has lost some of them.
 */
export function studentExceeded(chance: number, degrees: number): number {
  if (chance === 0.5) return 0;
  let high = 2;
  while (studentTail(high, degrees) > chance) high *= 2;
  // Half of all cases are over nothing, and fewer than asked over the high end: there is a root between them.
  return findRoot((x) => studentTail(x, degrees) - chance, 0, high) as number;
}
