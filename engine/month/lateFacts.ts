import { sameKey } from '../book/book.ts';
import { coinsOf, exact } from '../money/exact.ts';
import { type ClosedMonth, type MonthFigure, ofLine } from './closedMonth.ts';
import type { PostedLine } from './monthFigures.ts';
import { isPosting, type Posting } from './postings.ts';

/** What closed months have posted and should have by now; debits less credits, in smallest coins. */
export interface LateFact {
  readonly posting: Posting;
  /** Blank where the posting is of no channel. */
  readonly channel: string;
  readonly closedCoins: number;
  readonly nowCoins: number;
}

/**
 * What has changed in the closed months before an open one, posting by posting. What they should have posted is the
 * sum of their own journals by the book; what they did is the sum of those that were closed, with what these had
 * posted for months before them. So each change is posted once, in the first month that is closed after it.
 *
 * @param run months closed one after the other up to the open one, with their journals by the book as it is now
 */
export function lateFacts(
  run: readonly { readonly closed: ClosedMonth; readonly now: readonly PostedLine[] }[],
  digits: number,
): LateFact[] {
  const facts = new Map<string, LateFact>();
  const add = (posting: string, channel: string, closedCoins: number, nowCoins: number): void => {
    if (!isPosting(posting)) return;
    const key = `${posting}|${sameKey(channel)}`;
    const known = facts.get(key);
    facts.set(key, {
      posting,
      channel: known?.channel ?? channel,
      closedCoins: (known?.closedCoins ?? 0) + closedCoins,
      nowCoins: (known?.nowCoins ?? 0) + nowCoins,
    });
  };
  for (const { closed, now } of run) {
    for (const { posting, channel, coins } of closedLines(closed.figures, digits))
      add(posting, channel, coins, 0);
    for (const line of now)
      if (!line.isLate) add(line.posting, line.channel, 0, line.debitCoins - line.creditCoins);
  }
  return [...facts.values()].filter(({ closedCoins, nowCoins }) => closedCoins !== nowCoins);
}

/** The journal of a closed month: debits positive. */
function closedLines(
  figures: readonly MonthFigure[],
  digits: number,
): { readonly posting: string; readonly channel: string; readonly coins: number }[] {
  const journal = figures.filter(({ part }) => part === 'journal');
  const said = new Map(journal.map(({ name, figure, value }) => [`${name}|${figure}`, value]));
  return journal
    .filter(({ figure }) => figure === 'debit' || figure === 'credit')
    .map(({ name, figure, value }) => ({
      posting: said.get(`${name}|${ofLine.posting}${figure}`) ?? '',
      channel: said.get(`${name}|${ofLine.channel}${figure}`) ?? '',
      coins: coinsOf(exact(value), digits) * (figure === 'debit' ? 1 : -1),
    }));
}
