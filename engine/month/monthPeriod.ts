import { dayNumber, dayText } from '../book/measures/day.ts';

/** A calendar month, with its first and last day as spreadsheets count days. */
export interface MonthPeriod {
  /** As ISO 8601 writes it: `2026-10`. */
  readonly id: string;
  /** `October 2026`. */
  readonly name: string;
  readonly first: number;
  readonly last: number;
  /** The last day, ISO 8601. */
  readonly lastDate: string;
}

const names = [
  ...['January', 'February', 'March', 'April', 'May', 'June'],
  ...['July', 'August', 'September', 'October', 'November', 'December'],
];

/** Reads `2026-10`; undefined where that is no month of the calendar. */
export function monthPeriod(text: string): MonthPeriod | undefined {
  const found = /^(\d{4})-(\d{2})$/.exec(text);
  const year = Number(found?.[1]);
  const month = Number(found?.[2]);
  const first = found === null ? undefined : dayNumber(year, month, 1);
  const next = month === 12 ? dayNumber(year + 1, 1, 1) : dayNumber(year, month + 1, 1);
  if (first === undefined || next === undefined) return undefined;
  return {
    id: text,
    name: `${names[month - 1]} ${year}`,
    first,
    last: next - 1,
    lastDate: dayText(next - 1),
  };
}

/** The month that a day is in. */
export function monthOfDay(day: number): MonthPeriod {
  const found = monthPeriod(dayText(day).slice(0, 7));
  if (found === undefined) throw new Error(`Day ${day} is in no month`);
  return found;
}

export function monthBefore(month: MonthPeriod): MonthPeriod {
  return monthOfDay(month.first - 1);
}

export function monthAfter(month: MonthPeriod): MonthPeriod {
  return monthOfDay(month.last + 1);
}
