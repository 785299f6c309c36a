import { hasErrors, type Problem } from '../engine/index.ts';

/** What a question about a book gives. */
export interface Answer<Result> {
  /** What was asked for; null where an error stands in the way. */
  readonly result: Result | null;
  /** Everything to mend (`error`) or to look at (`watch`), each with its place; all of them at once. */
  readonly problems: readonly Problem[];
}

/** An answer of which nothing is left where there is an error: figures of such a book would be half of them zeros. */
export function answer<Result>(problems: readonly Problem[], result: () => Result): Answer<Result> {
  return hasErrors(problems) ? refused(problems) : { result: result(), problems };
}

export function refused(problems: readonly Problem[]): { result: null; problems: readonly Problem[] } {
  return { result: null, problems };
}
