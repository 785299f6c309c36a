import { dayText } from '../book/measures/day.ts';
import type { Values } from '../calc/values.ts';
import { coinsOf, exact, moneyOf } from '../money/exact.ts';
import type { Plan } from '../sheets/plan.ts';
import { type MonthFigure, ofLine } from './closedMonth.ts';
import { lateSource, lateText } from './journalLines.ts';
import { postingOfWords, postingWords } from './postings.ts';

/** A line of the journal with its amount, in smallest coins. */
export interface PostedLine {
  readonly entry: string;
  /** As spreadsheets count days. */
  readonly day: number;
  readonly code: string;
  readonly name: string;
  readonly posting: string;
  /** Blank where the posting is of no channel. */
  readonly channel: string;
  readonly text: string;
  /** Posts what has changed in closed months. */
  readonly isLate: boolean;
  readonly debitCoins: number;
  readonly creditCoins: number;
}

/** The journal of a calculated month. */
export function postedLines(plan: Plan, values: Values): PostedLine[] {
  const { currencyDigits } = plan.settings;
  const coins = (column: string, row: number): number =>
    coinsOf(exact(values.number('journal', column, row)), currencyDigits);
  return rowsOf(plan, 'journal').map((row) => {
    const text = (column: string, sheet = 'journal'): string => String(values.get(sheet, column, row) ?? '');
    return {
      entry: text('entry'),
      day: values.number('journal', 'date', row),
      code: text('code'),
      name: text('name'),
      posting: postingOfWords(text('posting', 'posted')),
      channel: text('channel', 'posted'),
      text: text('text'),
      isLate: text('source', 'posted') === lateSource,
      debitCoins: coins('debit', row),
      creditCoins: coins('credit', row),
    };
  });
}

/** What a calculated month posts for closed ones, debits positive, as money. */
export interface LateChange {
  readonly posting: string;
  /** Null where the posting is of no channel. */
  readonly channel: string | null;
  readonly change: number;
}

export function lateChanges(plan: Plan, values: Values): LateChange[] {
  return rowsOf(plan, 'late').map((row) => {
    const channel = values.get('late', 'channel', row);
    return {
      posting: postingOfWords(String(values.get('late', 'posting', row))),
      channel: channel === null ? null : String(channel),
      change: values.number('late', 'change', row),
    };
  });
}

/** As the sheets round quantities at the end of a month. */
const quantityPlaces = 9;

/** What is kept of a month when it is closed: every amount of the journal, and all stock at its end. */
export function monthFigures(plan: Plan, values: Values): MonthFigure[] {
  const { currencyDigits } = plan.settings;
  const amount = (coins: number): string => moneyOf(coins, currencyDigits).toFixed(currencyDigits);
  // The account too: what is booked elsewhere afterwards is another journal.
  const journal = new Map<string, { name: string; figure: string; coins: number; line: PostedLine }>();
  for (const line of postedLines(plan, values)) {
    const figure = line.debitCoins > 0 ? 'debit' : 'credit';
    // The text of other entries names their channel. What late ones are about, their text says to people alone.
    const channel = line.isLate && line.channel !== '' ? `, ${line.channel}` : '';
    const text = line.isLate ? lateText : line.text;
    const name = `${dayText(line.day)}, ${text}: ${line.posting}${channel}`;
    const key = `${name}|${figure}`;
    // Two invoices may be called alike; together they are still what was closed.
    const before = journal.get(key)?.coins ?? 0;
    const coins = before + line.debitCoins + line.creditCoins;
    journal.set(key, { name, figure, coins, line });
  }
  const stock = (part: string, sheet: string, item: string, quantity: string): MonthFigure[] =>
    rowsOf(plan, sheet).flatMap((row) => {
      const name = String(values.get(sheet, item, row) ?? '');
      const held = exact(values.number(sheet, quantity, row)).toDecimalPlaces(quantityPlaces);
      const coins = coinsOf(exact(values.number(sheet, 'closing_value', row)), currencyDigits);
      return [
        { part, name, figure: 'quantity', value: held.toFixed() },
        { part, name, figure: 'value', value: amount(coins) },
      ];
    });
  return [
    ...[...journal.values()].flatMap(({ name, figure, coins, line }) => [
      { part: 'journal', name, figure, value: amount(coins) },
      { part: 'journal', name, figure: `${ofLine.account}${figure}`, value: accountOf(line) },
      { part: 'journal', name, figure: `${ofLine.posting}${figure}`, value: line.posting },
      ...(line.channel === ''
        ? []
        : [{ part: 'journal', name, figure: `${ofLine.channel}${figure}`, value: line.channel }]),
    ]),
    ...stock('materials', 'materials', 'material', 'closing_quantity'),
    ...stock('finished goods', 'products', 'product', 'closing_pieces'),
  ];
}

/** Where no code is known the account is called by its posting, which is kept as the book's tables write it. */
function accountOf({ code, posting }: PostedLine): string {
  return code === postingWords(posting) ? posting : code;
}

function rowsOf(plan: Plan, sheet: string): number[] {
  const count = plan.sheets.find(({ id }) => id === sheet)?.rowCount ?? 0;
  return Array.from({ length: count }, (_, row) => row);
}
