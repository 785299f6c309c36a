import { sameKey } from '../book/book.ts';
import type { LateFact } from './lateFacts.ts';
import type { LateLine, MonthFacts } from './monthFacts.ts';
import type { Row } from './numberedLines.ts';
import { type Accounts, postingWords } from './postings.ts';

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
    posting: postingWords(posting),
    channel,
    meaning: accounts.of(posting, channel).meaning,
    closed_as: money(closedCoins),
    is_now: money(nowCoins),
  }));
}

/** So many entries of closed months are named in one text of the journal; its sheet names all. */
const mostNamed = 2;

/** What the change of a posting is about: the entries of closed months that are other ones now. */
export function lateAbout({ posting, channel }: LatePosting, lines: readonly LateLine[]): string {
  const own = lines.filter((line) => line.posting === posting && sameKey(line.channel) === sameKey(channel));
  const named = [...new Set(own.map(({ entry, month }) => `${entry} (${month})`))];
  // What stock was before its first closed month is in no journal, nor is a coin of rounding.
  if (named.length === 0) return 'what is left between stock and the rest';
  const more = named.length - mostNamed;
  return `${named.slice(0, mostNamed).join('; ')}${more > 0 ? `; and ${more} more, on the sheet What changed` : ''}`;
}

export function lateLineRows(lines: readonly LateLine[], money: (coins: number) => number): Row[] {
  return lines.map((each, at) => ({
    line: `line ${at + 1}`,
    month: each.month,
    entry: each.entry,
    posting: postingWords(each.posting),
    side: each.side,
    closed_as: each.closedCoins === null ? null : money(each.closedCoins),
    is_now: each.nowCoins === null ? null : money(each.nowCoins),
  }));
}
