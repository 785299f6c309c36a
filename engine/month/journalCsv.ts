import { csvCell, plainText } from '../book/files/csvCells.ts';
import { dayText } from '../book/measures/day.ts';
import type { Settings } from '../book/settings.ts';
import { moneyOf } from '../money/exact.ts';
import type { PostedLine } from './monthFigures.ts';

const headings = ['entry', 'date', 'account', 'name', 'posting', 'text', 'debit', 'credit', 'currency'];

/**
 * A journal as a table in the book's own notation: decimals with its mark, semicolons between cells where that is a
 * comma, days by ISO 8601, no thousands marks; a blank where a line has no debit or no credit. Text that a
 * spreadsheet program would take for a formula begins with an apostrophe.
 */
export function journalCsv(journal: readonly PostedLine[], settings: Settings): string {
  const { currency, currencyDigits, decimal } = settings;
  const mark = decimal === 'comma' ? ';' : ',';
  const amount = (coins: number): string => {
    if (coins === 0) return '';
    const text = moneyOf(coins, currencyDigits).toFixed(currencyDigits);
    return decimal === 'comma' ? text.replace('.', ',') : text;
  };
  const rows = journal.map((line) => [
    line.entry,
    dayText(line.day),
    ...[line.code, line.name, line.posting, line.text].map(plainText),
    amount(line.debitCoins),
    amount(line.creditCoins),
    currency,
  ]);
  return [headings, ...rows]
    .map((row) => `${row.map((cell) => csvCell(cell, mark, false)).join(mark)}\n`)
    .join('');
}
