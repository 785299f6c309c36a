import { type Place, type Problem, problem } from './problem.ts';

/** From here on a figure is more often a slip of the keyboard than a bargain: a digit too many is ten times. */
const far = 5;

/** How a figure lies to what it is held against, where it is so far off that it may be a slip. */
export function farFrom(
  found: number,
  usual: number,
): 'more than five times' | 'less than a fifth of' | undefined {
  if (found >= usual * far) return 'more than five times';
  return found <= usual / far ? 'less than a fifth of' : undefined;
}

/** What can be true and is more often a slip: to look at, never an error. */
export function unlikely(
  where: Place,
  message: string,
  found: string,
  accepted: string,
  mend: string,
): Problem {
  return problem('unlikely', where, message, { severity: 'watch', found, accepted, mend });
}
