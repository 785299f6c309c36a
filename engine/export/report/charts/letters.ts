import { shorten } from '../../shorten.ts';

/** Letters of a chart, in CSS pixels; a chart is shown at its own size, so they are as large as they say. */
export const letterPx = 12;

/**
 * Breadths of letters in parts of their height, on the wide side of the fonts that systems have. A picture is drawn
 * before it is known in which of them it will be read.
 */
const breadths: readonly (readonly [RegExp, number])[] = [
  [/[\u1100-\u11FF\u2E80-\uD7FF\uF900-\uFAFF\uFE30-\uFE6F\uFF00-\uFF60]|\p{Extended_Pictographic}/u, 1.3],
  [/[mwMW@%\u2014\u2026\u25B2\u25C6]/u, 1],
  [/[\p{Lu}<>=+~&#_]/u, 0.8],
  [/[iljtfI.,:;'|!()[\]/ -]/u, 0.4],
];
const usualBreadth = 0.64;

/** Room that a text takes. */
export function roomOf(text: string): number {
  let sum = 0;
  for (const letter of text) sum += breadths.find(([kind]) => kind.test(letter))?.[1] ?? usualBreadth;
  return Math.ceil(sum * letterPx);
}

/** As much of a text as a room holds. */
export function fitted(text: string, roomPx: number): string {
  if (roomOf(text) <= roomPx) return text;
  for (let letters = Math.min(text.length, Math.ceil(roomPx / 3)); letters > 4; letters -= 1) {
    const short = shorten(text, letters);
    if (roomOf(short) <= roomPx) return short;
  }
  return shorten(text, 4);
}

/** A text over two lines at most, broken between words. */
export function inLines(text: string, roomPx: number): readonly string[] {
  if (roomOf(text) <= roomPx) return [text];
  const breaks = [...text.matchAll(/ /g)].map(({ index }) => index);
  const at = breaks.findLast((each) => roomOf(text.slice(0, each)) <= roomPx);
  return at === undefined || at === 0
    ? [fitted(text, roomPx)]
    : [text.slice(0, at), fitted(text.slice(at + 1), roomPx)];
}
