import { describe, expect, it } from 'vitest';
import { dayText } from '../../engine/book/measures/day.ts';
import { monthBefore, monthPeriod } from '../../engine/month/monthPeriod.ts';

describe('a month', () => {
  it.each([
    ['2026-10', 'October 2026', '2026-10-01', '2026-10-31'],
    ['2028-02', 'February 2028', '2028-02-01', '2028-02-29'],
    ['2026-12', 'December 2026', '2026-12-01', '2026-12-31'],
  ])('%s has its name and its days', (id, name, first, last) => {
    const month = monthPeriod(id);
    expect(month).toMatchObject({ id, name, lastDate: last });
    expect([month?.first ?? 0, month?.last ?? 0].map(dayText)).toEqual([first, last]);
  });

  it.each(['2026-00', '2026-13', '2026-1', '26-10', '2026/10', '2026-10-01', ''])('“%s” is none', (text) => {
    expect(monthPeriod(text)).toBeUndefined();
  });

  it('follows on the one before, over the turn of a year', () => {
    const january = monthPeriod('2027-01');
    expect(january === undefined ? '' : monthBefore(january).id).toBe('2026-12');
  });
});
