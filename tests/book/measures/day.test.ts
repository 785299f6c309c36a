import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  dayNumber,
  dayText,
  monthOf,
  periodEnd,
  periodStart,
  readDay,
} from '../../../engine/book/measures/day.ts';

const october31 = 46_326;

describe('days', () => {
  // ODF 1.3 part 4, 4.3.3 and common spreadsheet programs (from memory): 1 January 2000 is 36526, 1 March 1900 is 61.
  it.each([
    [2000, 1, 1, 36_526],
    [1900, 3, 1, 61],
    [2026, 10, 31, october31],
    [2024, 2, 29, 45_351],
  ])('%i-%i-%i is day %i, as spreadsheets count', (year, month, day, number) => {
    expect(dayNumber(year, month, day)).toBe(number);
  });

  it.each([
    [2026, 2, 29],
    [2026, 4, 31],
    [2026, 13, 1],
    [1900, 2, 28],
    [2026, 1, 0],
  ])('%i-%i-%i is none', (year, month, day) => {
    expect(dayNumber(year, month, day)).toBeUndefined();
  });

  it.each([
    '2026-10-31',
    '2026-10-31 00:00:00',
    '2026-10-31T00:00',
    '2026/10/31',
    '20261031',
    '31.10.2026',
    '31. 10. 2026',
    '31/10/2026',
    '10/31/2026',
    '31-10-2026',
    '31 Oct 2026',
    '31 October 2026',
    '31-Oct-2026',
    'Oct 31, 2026',
    'October 31st, 2026',
  ])('reads %s', (text) => {
    expect(readDay(text)).toEqual({ day: october31 });
  });

  it.each(['9 Sep 2026', '9 Sept 2026', 'Sept 9, 2026', '9 September 2026'])('reads %s', (text) => {
    expect(readDay(text)).toEqual({ day: dayNumber(2026, 9, 9) });
  });

  it('takes neither of two days that a text can mean, and either where both are one', () => {
    expect(readDay('03/10/2026')).toEqual({ either: ['2026-10-03', '2026-03-10'] });
    expect(readDay('10/10/2026')).toEqual({ day: dayNumber(2026, 10, 10) });
  });

  it.each([
    ['31/10/26', 'year'],
    ['3.10.26', 'year'],
    ['2026-02-30', 'calendar'],
    ['30/02/2026', 'calendar'],
    ['13/13/2026', 'calendar'],
    ['46326', 'text'],
    ['last week', 'text'],
    ['31 Okt 2026', 'text'],
    ['9 Se 2026', 'text'],
    ['2026-10-31 14:30', 'text'],
  ])('%s is no day: %s', (text, wrong) => {
    expect(readDay(text)).toEqual({ wrong });
  });

  it('writes every day so that it reads as the same day', () => {
    fc.assert(
      fc.property(fc.integer({ min: 61, max: 2_958_465 }), (day) => {
        expect(readDay(dayText(day))).toEqual({ day });
      }),
    );
  });

  it('knows the period that a day is in', () => {
    const periods = [1, 3, 12].map((months) => [
      dayText(periodStart(october31, months)),
      dayText(periodEnd(october31, months)),
    ]);
    expect(periods).toEqual([
      ['2026-10-01', '2026-10-31'],
      ['2026-10-01', '2026-12-31'],
      ['2026-01-01', '2026-12-31'],
    ]);
    expect(monthOf(october31)).toEqual({ year: 2026, month: 10 });
  });
});
