import { type BookValue, sameKey } from '../../book/book.ts';
import type { CellValue } from '../../sheets/plan.ts';

/** Digits of a number that every spreadsheet program keeps when it saves; of the last, not all round alike. */
const digitsKept = 15;
const nearlySame = 2e-14;

/** A number as a workbook brings it back. */
export function keptNumber(value: number): number {
  return Number(value.toPrecision(digitsKept));
}

/** A text as it comes back from a workbook at the worst: what the file formats cannot hold is gone from both. */
export function keptText(text: string): string {
  return (
    text
      .replace(/_x([0-9A-Fa-f]{4})_/g, (_, hex: string) => String.fromCharCode(Number.parseInt(hex, 16)))
      .replace(/\r\n?/g, '\n')
      .replace(
        /[\uD800-\uDBFF](?![\uDC00-\uDFFF])|(?<![\uD800-\uDBFF])[\uDC00-\uDFFF]|[\uFFFE\uFFFF]/g,
        '\uFFFD',
      )
      // biome-ignore lint/suspicious/noControlCharactersInRegex: these are what is looked for
      .replace(/[\u0000-\u0008\u000B\u000C\u000E-\u001F]/g, '')
      .replace(/[ \t]+(?=\n|$)|(?<=^|\n)[ \t]+/g, '')
      .trim()
  );
}

/** Whether two values are the same to whoever compares a workbook with a book. */
export function sameValue(one: CellValue, other: CellValue): boolean {
  if (typeof one === 'number' && typeof other === 'number')
    return Math.abs(one - other) <= nearlySame * Math.max(Math.abs(one), Math.abs(other));
  if (typeof one === 'string' && typeof other === 'string') return keptText(one) === keptText(other);
  return (one === '' ? null : one) === (other === '' ? null : other);
}

/** The names of a row as one text by which rows are found again. */
export function keyOf(values: readonly (CellValue | BookValue | undefined)[]): string {
  return values
    .map((value) =>
      typeof value === 'number'
        ? String(Number(value.toPrecision(12)))
        : sameKey(keptText(String(value ?? ''))),
    )
    .join('|');
}
