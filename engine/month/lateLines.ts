import { coinsOf, exact } from '../money/exact.ts';
import { changedFigures, type MonthFigure, ofLine } from './closedMonth.ts';
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
  const said = new Map(
    [...now, ...closed]
      .filter(({ part }) => part === 'journal')
      .map(({ name, figure, value }) => [`${name}|${figure}`, value]),
  );
  return changedFigures(closed, now).flatMap(({ part, name, figure, closed: was, now: is }): LateLine[] => {
    if (part !== 'journal' || (figure !== 'debit' && figure !== 'credit') || name.includes(`, ${lateText}: `))
      return [];
    const posting = said.get(`${name}|${ofLine.posting}${figure}`) ?? '';
    const channel = said.get(`${name}|${ofLine.channel}${figure}`) ?? '';
    const entry = name.endsWith(`: ${posting}`) ? name.slice(0, -`: ${posting}`.length) : name;
    const amounts = { closedCoins: coins(was), nowCoins: coins(is) };
    return [{ month: month.name, entry, posting, channel, side: figure, ...amounts }];
  });
}
