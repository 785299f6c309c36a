import type { LateFact } from './lateFacts.ts';
import type { LateLine, MonthFacts } from './monthFacts.ts';
import type { Row } from './numberedLines.ts';
import type { Accounts } from './postings.ts';

/** A line of the sheet on which changes of closed months stand. */
export interface LatePosting extends LateFact {
  readonly line: string;
}

/** Postings whose change is read from stock: what it was and is stands on its sheets; the last is what is left. */
const ofStock = ['materials', 'finished_goods', 'stock_difference'] as const;

/** What has changed in closed months, by postings; no line where nothing has. */
export function latePostings({ late, materials, products }: MonthFacts): LatePosting[] {
  const stockMoved = [...materials, ...products].some(({ lateCoins }) => lateCoins !== 0);
  if (late.length === 0 && !stockMoved) return [];
  const facts: readonly LateFact[] = [
    ...late.filter(({ posting }) => !ofStock.some((each) => each === posting)),
    ...ofStock.map((posting) => {
      const items = posting === 'materials' ? materials : posting === 'finished_goods' ? products : [];
      const closedCoins = items.reduce((sum, { openingCoins }) => sum + openingCoins, 0);
      const lateCoins = items.reduce((sum, each) => sum + each.lateCoins, 0);
      return { posting, channel: '', closedCoins, nowCoins: closedCoins + lateCoins };
    }),
  ];
  return facts.map((each, at) => ({ line: `change ${at + 1}`, ...each }));
}

export function lateRows(
  late: readonly LatePosting[],
  accounts: Accounts,
  money: (coins: number) => number,
): Row[] {
  return late.map(({ line, posting, channel, closedCoins, nowCoins }) => ({
    line,
    posting,
    channel,
    meaning: accounts.of(posting, channel).meaning,
    closed_as: money(closedCoins),
    is_now: money(nowCoins),
  }));
}

export function lateLineRows(lines: readonly LateLine[], money: (coins: number) => number): Row[] {
  return lines.map((each, at) => ({
    line: `line ${at + 1}`,
    month: each.month,
    text: each.text,
    side: each.side,
    closed_as: each.closedCoins === null ? null : money(each.closedCoins),
    is_now: each.nowCoins === null ? null : money(each.nowCoins),
  }));
}
