/** Numbers of the formats for days and times that every program brings along (ECMA-376 part 1, 18.8.30). */
function isBuiltIn(id: number): boolean {
  return (id >= 14 && id <= 22) || (id >= 27 && id <= 36) || (id >= 45 && id <= 47) || (id >= 50 && id <= 58);
}

/** Whether a number format shows a day or a time: it has a letter for one outside quotes, escapes and brackets. */
export function showsDate(id: number, code: string | undefined): boolean {
  if (code === undefined) return isBuiltIn(id);
  const plain = code
    .replace(/"[^"]*"|\\.|_.|\*./g, '')
    // Elapsed time stands in brackets as well; colours, conditions and currencies do.
    .replace(/\[(?!h+\]|m+\]|s+\])[^\]]*\]/gi, '');
  return /general/i.test(plain) ? false : /[dmyhs]/i.test(plain);
}

const dayMs = 86_400_000;

/**
 * A serial number as the day or time that it shows: `2027-03-01`, `08:30:00`, or both with a T between.
 *
 * @param from1904 whether day 0 is the first of January 1904
 */
export function dateText(serial: number, from1904: boolean): { kind: 'date' | 'time'; value: string } {
  const seconds = Math.round((serial - Math.floor(serial)) * 86_400);
  const days = Math.floor(serial) + (seconds === 86_400 ? 1 : 0);
  const time = new Date((seconds % 86_400) * 1000).toISOString().slice(11, 19);
  if (days === 0) return { kind: 'time', value: time };
  // Serial 60 is a day in 1900 that never was; before it the count is one short.
  const start = from1904 ? Date.UTC(1904, 0, 1) : Date.UTC(1899, 11, days < 60 ? 31 : 30);
  const date = new Date(start + days * dayMs);
  const day = Number.isNaN(date.getTime()) ? String(serial) : date.toISOString().slice(0, 10);
  return { kind: 'date', value: time === '00:00:00' ? day : `${day}T${time}` };
}
