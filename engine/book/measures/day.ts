/*
 * Days as spreadsheets count them: 2026-10-31 is 46326, days since 30 December 1899. Before 1 March 1900 programs
 * do not agree, so no earlier day is read.
 */

const dayMs = 86_400_000;
/** 30 December 1899, the day 0 of OpenDocument and of common spreadsheet programs (ODF 1.3 part 4, 4.3.3). */
const dayZeroMs = Date.UTC(1899, 11, 30);
const firstYear = 1900;
const lastYear = 9999;

/** The number of a day, or undefined where the calendar has none such (31 April, 29 February 2027). */
export function dayNumber(year: number, month: number, day: number): number | undefined {
  if (year < firstYear || year > lastYear || month < 1 || month > 12 || day < 1) return undefined;
  const moment = new Date(Date.UTC(year, month - 1, day));
  if (moment.getUTCMonth() !== month - 1 || moment.getUTCDate() !== day) return undefined;
  const number = Math.round((moment.getTime() - dayZeroMs) / dayMs);
  return number < 61 ? undefined : number;
}

/** A day number as ISO 8601 writes it: 2026-10-31. */
export function dayText(number: number): string {
  return new Date(dayZeroMs + Math.round(number) * dayMs).toISOString().slice(0, 10);
}

/** The number of a day in ISO 8601; undefined where it is none. */
export function isoDay(text: string): number | undefined {
  const [year, month, day] = text.split('-').map(Number) as [number, number, number];
  return dayNumber(year, month, day);
}

/** Year and month of a day, the month from 1. */
export function monthOf(number: number): { readonly year: number; readonly month: number } {
  const moment = new Date(dayZeroMs + Math.round(number) * dayMs);
  return { year: moment.getUTCFullYear(), month: moment.getUTCMonth() + 1 };
}

/** First day of a period of so many months (1, 3 or 12) that holds the day; periods begin in January. */
export function periodStart(number: number, months: number): number {
  const { year, month } = monthOf(number);
  const first = month - ((month - 1) % months);
  return Math.round((Date.UTC(year, first - 1, 1) - dayZeroMs) / dayMs);
}

/** Last day of that period. */
export function periodEnd(number: number, months: number): number {
  const { year, month } = monthOf(number);
  const first = month - ((month - 1) % months);
  return Math.round((Date.UTC(year, first - 1 + months, 1) - dayZeroMs) / dayMs) - 1;
}

const monthNames = [
  ...['january', 'february', 'march', 'april', 'may', 'june'],
  ...['july', 'august', 'september', 'october', 'november', 'december'],
];

/** A day that was read, or why the text is none: two readings of it, or none. */
export type DayReading =
  | { readonly day: number }
  | { readonly either: readonly [string, string] }
  | { readonly wrong: 'calendar' | 'year' | 'text' };

/**
 * Reads a day as people and spreadsheet programs write it: 2026-10-31, also with a time of midnight; 31.10.2026;
 * 31 Oct 2026; and 31/10/2026 or 10/31/2026 where only one reading is a day. 03/10/2026 has two, and is refused.
 */
export function readDay(text: string): DayReading {
  const plain = text
    .trim()
    .replace(/[T ]+0{1,2}:00(?::00(?:\.0+)?)?Z?$/, '')
    .replace(/\s+/g, ' ');
  const iso = /^(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})$/.exec(plain) ?? /^(\d{4})(\d{2})(\d{2})$/.exec(plain);
  if (iso !== null) return of(Number(iso[1]), Number(iso[2]), Number(iso[3]));
  const dotted = /^(\d{1,2})\. ?(\d{1,2})\. ?(\d{2,4})$/.exec(plain);
  if (dotted !== null) return of(Number(dotted[3]), Number(dotted[2]), Number(dotted[1]));
  const worded =
    /^(\d{1,2})(?:st|nd|rd|th)?[. -]+([a-z]+)\.?[, -]+(\d{2,4})$/i.exec(plain) ??
    reordered(/^([a-z]+)\.? (\d{1,2})(?:st|nd|rd|th)?,? (\d{2,4})$/i.exec(plain));
  if (worded !== null) return ofWorded(worded);
  const slashed = /^(\d{1,2})[/-](\d{1,2})[/-](\d{2,4})$/.exec(plain);
  if (slashed !== null) return ofSlashed(Number(slashed[1]), Number(slashed[2]), Number(slashed[3]));
  return { wrong: 'text' };
}

function of(year: number, month: number, day: number): DayReading {
  // Of two digits nobody knows the century.
  if (year < firstYear) return { wrong: 'year' };
  const number = dayNumber(year, month, day);
  return number === undefined ? { wrong: 'calendar' } : { day: number };
}

function reordered(found: RegExpExecArray | null): readonly string[] | null {
  return found === null ? null : ['', found[2]!, found[1]!, found[3]!];
}

function ofWorded([, day = '', word = '', year = '']: readonly string[]): DayReading {
  const lower = word.toLowerCase();
  const month = monthNames.findIndex(
    (name) =>
      name === lower ||
      (lower.length >= 3 && (name.startsWith(lower) || (lower === 'sept' && name === 'september'))),
  );
  return month < 0 ? { wrong: 'text' } : of(Number(year), month + 1, Number(day));
}

function ofSlashed(one: number, other: number, year: number): DayReading {
  const dayFirst = of(year, other, one);
  const monthFirst = of(year, one, other);
  if (!('day' in dayFirst)) return 'day' in monthFirst ? monthFirst : dayFirst;
  if (!('day' in monthFirst) || one === other) return dayFirst;
  return { either: [dayText(dayFirst.day), dayText(monthFirst.day)] };
}
