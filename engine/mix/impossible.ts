import { type Problem, problem } from '../book/problems/problem.ts';
import type { Settings } from '../book/settings.ts';
import { showTrimmed } from '../sheets/showValue.ts';
import { type MixItem, type MixLimit, type MixTask, takenOf } from './mixTask.ts';

/** Sums of decimals leave dust: only what is more than this share too much is too much. */
export const dust = 1e-9;

/**
 * Why there is no best mix: promises that a limit does not allow, and pieces that nothing limits. As every piece
 * takes of the limits and none gives, there is a mix whenever the promised pieces alone fit.
 */
export function impossible(task: MixTask, settings: Settings): Problem[] {
  return [
    ...task.limits.flatMap((limit) => promisedTooMuch(task, limit, settings)),
    ...task.items.flatMap((item, at) => unlimited(task, item, at)),
  ];
}

function promisedTooMuch({ items }: MixTask, limit: MixLimit, settings: Settings): Problem[] {
  const promised = items.map(({ atLeast }) => atLeast);
  const taken = takenOf(limit, promised);
  if (taken <= limit.available * (1 + dust) + dust) return [];
  const show = (value: number): string => showTrimmed(value, 2, settings);
  const unit =
    limit.kind === 'bench hours'
      ? 'bench hours'
      : limit.unit === 'pieces'
        ? limit.name
        : `${limit.unit} of ${limit.name}`;
  const most = items
    .map((item, at) => ({ item, taken: item.atLeast * limit.takenByEach[at]! }))
    .filter((each) => each.taken > 0)
    .sort((one, other) => other.taken - one.taken);
  const named = most
    .slice(0, 4)
    .map(
      ({ item, taken: own }) => `${show(item.atLeast)} ${item.product} (${item.channel}) take ${show(own)}`,
    );
  const more = most.length > 4 ? `; ${most.length - 4} more rows are promised` : '';
  return [
    problem(
      'out-of-range',
      { ...(most[0]?.item.place ?? { file: 'sales_mix.csv' }), column: 'at_least' },
      `The promised pieces take ${show(taken)} ${unit}, and there are ${show(limit.available)}: ${show(taken - limit.available)} too few. ${named.join('; ')}${more}.`,
      {
        found: show(taken),
        accepted: `promises that take up to ${show(limit.available)} ${unit}`,
        mend:
          limit.kind === 'bench hours'
            ? 'Promise less (at_least), or find more hours (--hours, or bench_hours_per_month of book.yaml).'
            : 'Promise less (at_least), write what else lies there into stock.csv, or leave out --stock and buy.',
      },
    ),
  ];
}

function unlimited({ limits }: MixTask, item: MixItem, at: number): Problem[] {
  const isLimited =
    item.atMost !== Number.POSITIVE_INFINITY || limits.some((limit) => limit.takenByEach[at]! > 0);
  if (isLimited || item.contributionEach <= 0) return [];
  return [
    problem(
      'out-of-range',
      { ...item.place, ...(item.expected === null ? {} : { column: 'at_most' }) },
      `Product ${item.product}, channel ${item.channel}, takes no bench hours and may be sold without limit, so no number of it is best.`,
      {
        accepted: 'a limit for what takes no bench time',
        mend: 'Time its work in work.csv, or say in sales_mix.csv how many would be bought at_most.',
      },
    ),
  ];
}
