/**
 * What a cord function is: one rule of geometry, written twice on purpose. `compute` serves the engine;
 * `native` is the same rule as plain spreadsheet text, so that no cell of an exported workbook is dead.
 * A property test holds the two equal.
 *
 * Outside its domain a function has no answer: `compute` gives NaN, which the caller shows as #NUM!, and
 * the native text takes SQRT(-1), which is #NUM! in every spreadsheet program. NA() was not used because
 * it reads as "not filled in yet".
 */
export interface CordArgument {
  /** Lower case, as in a formula sheet. */
  readonly name: string;
  readonly unit: string;
  readonly meaning: string;
}

export interface CordFunction {
  /** UPPERCASE, as in a formula sheet. */
  readonly name: string;
  readonly args: readonly CordArgument[];
  /** Meaning and unit of the result. */
  readonly gives: string;
  /** One number per argument, in order; NaN outside the domain. */
  compute(...args: readonly number[]): number;
  /** One spelled cell reference or parenthesised expression per argument; throws on another count. */
  native(args: readonly string[]): string;
}

type Each<Args extends readonly CordArgument[], Value> = { readonly [Index in keyof Args]: Value };

/** A cord function as its family file writes it: both spellings take one parameter per argument. */
interface CordRule<Args extends readonly CordArgument[]> {
  readonly name: string;
  readonly args: Args;
  readonly gives: string;
  readonly compute: (...args: Each<Args, number>) => number;
  /** What must hold, in spreadsheet text; all of it is checked before `formula` is reached. */
  readonly domain: (...args: Each<Args, string>) => readonly string[];
  readonly formula: (...args: Each<Args, string>) => string;
}

/** Closes a rule into a frozen cord function. Exceptions: `native` with a wrong count is a fault of ours. */
export function cordFunction<const Args extends readonly CordArgument[]>(rule: CordRule<Args>): CordFunction {
  const { name, args, gives } = rule;
  return Object.freeze({
    name,
    args,
    gives,
    compute(...values: readonly number[]): number {
      if (values.length !== args.length) return Number.NaN;
      const result = rule.compute(...(values as Each<Args, number>));
      // Overflow is #NUM! in a spreadsheet as well.
      return Number.isFinite(result) ? result : Number.NaN;
    },
    native(spelled: readonly string[]): string {
      if (spelled.length !== args.length) {
        throw new RangeError(`${name} takes ${args.length} arguments, got ${spelled.length}`);
      }
      const texts = spelled as Each<Args, string>;
      return `IF(AND(${rule.domain(...texts).join(',')}),${rule.formula(...texts)},SQRT(-1))`;
    },
  });
}
