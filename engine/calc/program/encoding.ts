import { compare, failure } from '../compiled/scalar.ts';
import { isFailure, type Result } from '../values.ts';

/*
 * How every value of a sheet is held as one double, so that a program needs one Float64Array and nothing else:
 * a number as itself, a failure as NaN, and all else as one of the largest doubles there are, counted down from
 * the very largest. Sums, costs and lengths do not come near those; one that does has left every use of it.
 */

/** Every number is below this; blank, truth, #N/A and texts are above. */
export const numberLimit = 1.7e308;

const unit = 2 ** 971;
const largest = 2 ** 53 - 1;

/** The double that stands for the value of this index. */
export const sentinel = (index: number): number => (largest - index) * unit;

/** Indices of what is not text; #N/A is kept apart from other failures, since IFNA catches it alone. */
const blankIndex = 0;
const falseIndex = 1;
const trueIndex = 2;
const missingIndex = 3;
const firstText = 4;

export const blank: number = sentinel(blankIndex);
export const no: number = sentinel(falseIndex);
export const yes: number = sentinel(trueIndex);
export const missing: number = sentinel(missingIndex);
/** Texts are at or below this. */
export const topText: number = sentinel(firstText);

/** What checks say; they come first among the texts, so that every program knows them by index. */
export const checkTexts: readonly string[] = Object.freeze(['well', 'look']);
export const well: number = sentinel(firstText);
export const look: number = sentinel(firstText + 1);

/** What a result is to whoever runs a program: see `Program.run`. */
export function figure(x: number): number {
  if (x < numberLimit) return x;
  if (x === yes || x === well) return 1;
  return x === no || x === look ? 0 : Number.NaN;
}

/** The texts of a program: those that are known beforehand, and those that one run makes. */
export class Texts {
  readonly #list: string[] = [];
  readonly #known = new Map<string, number>();
  #fixed = 0;

  constructor(fixed: readonly string[] = checkTexts) {
    for (const text of fixed) this.#index(text);
    this.fix();
  }

  get list(): readonly string[] {
    return this.#list;
  }

  /** What is known by now stays. */
  fix(): void {
    this.#fixed = this.#list.length;
  }

  /** A text that every run knows. */
  isFixed(double: number): boolean {
    return double <= topText && double > sentinel(firstText + this.#fixed);
  }

  /** Forgets what the last run made. */
  reset(): void {
    while (this.#list.length > this.#fixed) this.#known.delete(this.#list.pop()!);
  }

  #index(text: string): number {
    const known = this.#known.get(text);
    if (known !== undefined) return known;
    this.#known.set(text, this.#list.length);
    return this.#list.push(text) - 1;
  }

  encode(value: Result): number {
    if (typeof value === 'number') return value;
    if (typeof value === 'string') return sentinel(firstText + this.#index(value));
    if (value === null) return blank;
    if (typeof value === 'boolean') return value ? yes : no;
    return value.error === failure.missing.error ? missing : Number.NaN;
  }

  decode(double: number): Result {
    if (double < numberLimit) return double;
    const index = largest - double / unit;
    if (index >= firstText) return this.#list[index - firstText] ?? failure.number;
    if (index === blankIndex) return null;
    if (index === missingIndex) return failure.missing;
    return index === trueIndex ? true : index === falseIndex ? false : failure.value;
  }

  /** As `compare` of the compiled path; NaN where one of the two has failed. */
  compare(one: number, other: number): number {
    const [left, right] = [this.decode(one), this.decode(other)];
    return isFailure(left) || isFailure(right) ? Number.NaN : compare(left, right);
  }
}
