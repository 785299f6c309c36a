import { distance } from 'fastest-levenshtein';

/** A longer one is no slip of the hand, and comparing it takes a time that grows with its length. */
const longestName = 200;

/** The known name most like `name`, where one is close enough to be a slip of the hand. */
export function nearest(name: string, known: Iterable<string>): string | undefined {
  if (name.length > longestName) return undefined;
  let best: string | undefined;
  let bestDistance = Number.POSITIVE_INFINITY;
  const wanted = name.toLowerCase();
  for (const candidate of known) {
    const steps = distance(wanted, candidate.toLowerCase());
    if (steps < bestDistance) {
      best = candidate;
      bestDistance = steps;
    }
  }
  if (best === undefined) return undefined;
  const slips = name.length < 4 ? 1 : name.length < 12 ? 2 : 3;
  // Two letters apart, and beginning with another: more likely another name than a slip.
  const alike = bestDistance <= 1 || best[0]?.toLowerCase() === wanted[0];
  return bestDistance <= slips && alike ? best : undefined;
}

/** Fewer letters stand in almost every name. */
const shortestPart = 3;

/** The known names that hold what was typed, or each word of it: of “wallet” olive-wallet-cord, of “cord slate” slate cord. */
export function holding(name: string, known: Iterable<string>): string[] {
  if (name.length > longestName) return [];
  const words = name
    .toLowerCase()
    .split(/\s+/)
    .filter((word) => word !== '');
  if (words.join('').length < shortestPart) return [];
  return [...known].filter((each) => words.every((word) => each.toLowerCase().includes(word)));
}

/** More names than this are counted, not listed. */
const mostNames = 8;

/** Names in a row, as many as can be taken in: "bar, braid, and 12 more". */
export function someNames(names: readonly string[], most: number = mostNames): string {
  const more = names.length - most;
  return more <= 0 ? names.join(', ') : `${names.slice(0, most).join(', ')}, and ${more} more`;
}

/** "Did you mean “bar”?" where a name is near or holds what was typed, else a list of what there is. */
export function mendName(name: string, known: readonly string[]): string {
  return (
    meantName(name, known) ?? (known.length === 0 ? 'There is none yet.' : `Known: ${someNames(known)}.`)
  );
}

/** The name, or the names, that may have been meant; nothing where none is like what was typed. */
export function meantName(name: string, known: Iterable<string>): string | undefined {
  const names = [...known];
  const near = nearest(name, names);
  if (near !== undefined) return `Did you mean “${near}”?`;
  const [only, ...others] = holding(name, names);
  if (only === undefined) return undefined;
  return others.length === 0
    ? `Did you mean “${only}”?`
    : `Did you mean one of these: ${someNames([only, ...others])}?`;
}
