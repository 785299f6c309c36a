import { type MixSolution, type MixTask, takenOf } from './mixTask.ts';

/** What a sum of products of solver figures may be off by, as a share. */
const tolerance = 1e-6;

/**
 * Proves a mix best without asking how it was found, by linear programming duality: it keeps every limit, its worths
 * are prices at which no piece more would pay, and at these prices all that limits and promises allow is worth
 * exactly what the mix contributes. No other mix can then contribute more.
 *
 * @throws where one of the three does not hold: a fault of ours, never the maker's
 */
export function verifyMix(task: MixTask, solution: MixSolution): void {
  const { pieces, worth, reduced, contribution } = solution;
  const fail = (what: string): never => {
    throw new Error(`The best mix does not hold: ${what}`);
  };
  const within = (value: number, most: number): boolean =>
    value <= most + tolerance * Math.max(1, Math.abs(most), Math.abs(value));
  for (const limit of task.limits)
    if (!within(takenOf(limit, pieces), limit.available)) fail(`it takes too much of ${limit.name}`);
  task.items.forEach((item, at) => {
    const made = pieces[at]!;
    if (!(within(item.atLeast, made) && within(made, item.atMost)))
      fail(`${item.product} in ${item.channel} is outside its bounds`);
    // Nothing that may be made without limit earns more than the worth of what it takes.
    if (item.atMost === Number.POSITIVE_INFINITY && !within(reduced[at]!, 0))
      fail(`more of ${item.product} in ${item.channel} would pay`);
  });
  if (worth.some((each) => !(each >= 0))) fail('a limit has a worth below nothing');
  const atPrices =
    task.limits.reduce((sum, limit, row) => sum + limit.available * worth[row]!, 0) +
    task.items.reduce((sum, item, at) => {
      const own = reduced[at]!;
      return (
        sum +
        (own > 0 && item.atMost !== Number.POSITIVE_INFINITY
          ? own * item.atMost
          : own < 0
            ? own * item.atLeast
            : 0)
      );
    }, 0);
  const scale = Math.max(
    1,
    Math.abs(contribution),
    task.limits.reduce((sum, limit, row) => sum + limit.available * worth[row]!, 0),
  );
  if (!(Math.abs(atPrices - contribution) <= tolerance * scale))
    fail(`it contributes ${contribution}, and its limits are worth ${atPrices}`);
}
