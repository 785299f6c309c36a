import { coinsOf, exact } from '../money/exact.ts';
import { changedFigures, type MonthFigure } from './closedMonth.ts';
import { lateText } from './journalLines.ts';
import type { LateLine } from './monthFacts.ts';
import type { MonthPeriod } from './monthPeriod.ts';

/** Lines of a closed month's journal that are other ones by the book of today; changes of still earlier months aside. */
export function lateLines(
  month: MonthPeriod,
  closed: readonly MonthFigure[],
  now: readonly MonthFigure[],
  digits: number,
): LateLine[] {
  const coins = (text: string | null): number | null => (text === null ? null : coinsOf(exact(text), digits));
  return changedFigures(closed, now).flatMap(({ part, name, figure, closed: was, now: is }): LateLine[] => {
    if (part !== 'journal' || (figure !== 'debit' && figure !== 'credit') || name.includes(`, ${lateText}: `))
      return [];
    return [{ month: month.name, text: name, side: figure, closedCoins: coins(was), nowCoins: coins(is) }];
  });
}
