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

/** "write “bar”" where a near name is known, else a list of what there is. */
export function mendName(name: string, known: readonly string[]): string {
  const near = nearest(name, known);
  if (near !== undefined) return `Did you mean “${near}”?`;
  const some = known.slice(0, 8).join(', ');
  return known.length === 0 ? 'There is none yet.' : `Known: ${some}${known.length > 8 ? ', …' : ''}.`;
}
