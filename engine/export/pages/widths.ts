/**
 * How wide text runs, in the unit of a column width: one digit of the workbook's font. No font is at hand
 * when a workbook is written, so the advance widths of its family stand here (thousandths of the type size,
 * as the metrics of every sans serif of this design agree on), letters grouped by width.
 */
const groups: readonly (readonly [number, string])[] = [
  [191, "'"],
  [222, 'ijl'],
  [278, ' !,./:;[]\\ftI·'],
  [333, '()-`r‘’“”'],
  [389, '*'],
  [469, '^'],
  [500, 'cksvxyzJ'],
  [556, '0123456789abdeghnopqu#$?_L–€£'],
  [584, '+<=>'],
  [611, 'FTZ'],
  [667, '&ABEKPSVXY'],
  [722, 'CDHNRUw'],
  [778, 'GOQ'],
  [833, 'mM'],
  [889, '%'],
  [1000, 'W@—…▲'],
];
const widths: ReadonlyMap<string, number> = new Map(
  groups.flatMap(([width, letters]) => [...letters].map((letter): [string, number] => [letter, width])),
);

const digit = 556;
/** On a screen a digit is drawn 7 dots wide where the metrics say 7.4: a column holds that much less. */
const screenFactor = 1.06;
/** Accented letters and other alphabets; scripts drawn in squares take a whole size. */
const otherLetter = 620;
const squareLetter = 1000;

export function textWidth(text: string): number {
  let width = 0;
  for (const letter of text) {
    width += widths.get(letter) ?? ((letter.codePointAt(0) ?? 0) > 0x2e7f ? squareLetter : otherLetter);
  }
  return (width / digit) * screenFactor;
}

/** A column for words grows no wider: longer text wraps. */
export const widestText = 60;

/** Bold letters run wider. */
export const boldFactor = 1.08;

/** Lines that a text takes where it wraps between words at a width. */
export function wrappedLines(text: string, width: number, factor: number = 1): number {
  const space = textWidth(' ') * factor;
  let lines = 1;
  let used = 0;
  for (const word of text.split(/\s+/)) {
    const wordWidth = textWidth(word) * factor;
    if (used === 0 || used + space + wordWidth <= width) {
      used += used === 0 ? wordWidth : space + wordWidth;
      continue;
    }
    lines += 1;
    used = wordWidth;
  }
  return lines;
}

/** The format knows no wider column. */
const widestColumn = 255;

/** The least width at which a heading takes no more than so many lines, as far as columns go. */
export function headingWidth(text: string, mostLines: number): number {
  const longest = text.split(/\s+/).reduce((most, word) => Math.max(most, textWidth(word) * boldFactor), 0);
  let width = Math.min(longest, widestColumn);
  while (width < widestColumn && wrappedLines(text, width, boldFactor) > mostLines) width += 0.5;
  return Math.min(width, widestColumn);
}

/** A row can be 409 points high. */
const mostLines = 31;

/** Height of a row of so many lines of the workbook's text, in points. */
export function rowHeight(lines: number): number {
  return Math.min(lines, mostLines) * 13 + 3;
}
