import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { disagreements } from '../../engine/calc/agreement.ts';
import { evaluate } from '../../engine/calc/evaluate.ts';
import { isFailure } from '../../engine/calc/values.ts';
import { exact } from '../../engine/money/exact.ts';
import { closedText } from '../../engine/month/closedMonth.ts';
import { monthPeriod } from '../../engine/month/monthPeriod.ts';
import type { MonthBook } from '../../engine/monthBook.ts';
import type { BookText } from '../support/books.ts';
import { monthOf, sha256 } from '../support/monthSource.ts';
import { tradeBook } from '../support/tradeBook.ts';

const currencies = { USD: 2, JPY: 0, KWD: 3 } as const;
type Currency = keyof typeof currencies;

/** Days of September to November 2026. */
const day = fc
  .integer({ min: 0, max: 90 })
  .map((after) => new Date(Date.UTC(2026, 8, 1 + after)).toISOString().slice(0, 10));

const amountOf = (currency: Currency): fc.Arbitrary<string> =>
  fc
    .integer({ min: 1, max: 400_000 })
    .map((coins) => (coins / 10 ** currencies[currency]).toFixed(currencies[currency]));

const sign = fc.constantFrom('', '', '', '-');

/** A history of three months with returns, two other currencies, tax both ways, waste, gifts, counts and shortages. */
function history(currency: Currency): fc.Arbitrary<BookText> {
  const amount = amountOf(currency);
  const row = <T extends readonly fc.Arbitrary<unknown>[]>(...cells: T) =>
    fc.tuple(...cells).map((each) => each.join(','));
  const rows = (one: fc.Arbitrary<string>, most = 6) => fc.array(one, { maxLength: most });
  const signed = (
    first: fc.Arbitrary<string>,
    count: fc.Arbitrary<number>,
    rest: (s: string) => fc.Arbitrary<string>,
  ) =>
    fc.tuple(first, sign, count).chain(([head, s, n]) => rest(s).map((tail) => `${head},${s}${n},${tail}`));
  const bought = signed(
    row(
      day,
      fc.constantFrom('A1', 'B-2', 'C 3', ''),
      fc.constantFrom('Yard', 'Works'),
      fc.constantFrom('blank', 'cord'),
    ),
    fc.integer({ min: 1, max: 300 }),
    (s) =>
      row(
        amount.map((a) => s + a),
        fc.constantFrom('', 'EUR', 'GBP'),
        fc.oneof(
          fc.constant(''),
          amount.map((a) => s + a),
        ),
        fc.constantFrom('yes', 'no', ''),
      ),
  );
  const sold = signed(
    row(day, fc.constantFrom('shop', 'fair'), fc.constant('thing')),
    fc.integer({ min: 1, max: 40 }),
    (s) =>
      row(
        amount.map((a) => s + a),
        fc.constantFrom('', `${s}0`),
        fc.constantFrom('', '0'),
      ),
  );
  return fc
    .record({
      method: fc.constantFrom('average', 'first in first out'),
      timing: fc.constantFrom('perpetual', 'periodic'),
      tax: fc.constantFrom(0, 6, 19, 21.5),
      purchases: rows(bought, 8),
      charges: rows(
        row(
          fc.constantFrom('A1', 'B-2', 'C 3'),
          fc.constantFrom('freight', 'duty', 'other'),
          amount,
          fc.constantFrom('', 'EUR'),
          fc.constantFrom('', 'the carrier'),
          fc.constantFrom('', '', '0', '1', '2.37'),
          fc.constantFrom('', 'yes', 'no'),
        ),
      ),
      made: rows(
        row(
          day,
          fc.constant('thing'),
          fc.integer({ min: 1, max: 50 }),
          fc.constantFrom('', '0.25', '7'),
          fc.constantFrom('', '19.37'),
        ),
      ),
      used: rows(
        row(
          day,
          fc.constantFrom('blank', 'thing'),
          fc.integer({ min: 1, max: 30 }),
          fc.constantFrom('waste', 'sample', 'gift', 'own use', 'other'),
        ),
      ),
      sales: rows(sold, 8),
      counts: fc.uniqueArray(
        row(
          day,
          fc.constantFrom('blank', 'thing'),
          fc.integer({ min: 0, max: 200 }),
          fc.constantFrom('', '', '12'),
        ),
        {
          maxLength: 4,
          selector: (each) => each.split(',').slice(0, 2).join(),
        },
      ),
    })
    .map((all) => {
      const bookInvoices = new Set(
        all.purchases
          .filter((each) => !each.split(',')[4]?.startsWith('-'))
          .map((each) => each.split(',')[1]),
      );
      const table = (heading: string, lines: readonly string[]) => `${[heading, ...lines].join('\n')}\n`;
      const book = new Map(
        tradeBook({
          minutes: 7,
          wage: 20,
          overhead: 321,
          hours: 40,
          settings: `tax_percent: ${all.tax}\nstock_method: ${all.method}\nstock_timing: ${all.timing}\n`,
        }),
      );
      book.set('book.yaml', (book.get('book.yaml') ?? '').replace('USD', currency));
      book.set('channels.csv', 'channel,prices_include_tax\nshop,yes\nfair,no\n');
      book.set(
        'fees.csv',
        'channel,fee,percent,taken_on,fixed_per_piece\nshop,card,2.9,gross price,0\nfair,stand,,,1\n',
      );
      book.set(
        'day_rates.csv',
        'date,currency,rate\n2026-09-01,EUR,1.0837\n2026-10-09,EUR,1.1193\n2026-08-01,GBP,1.3071\n',
      );
      book.set(
        'stocktakes.csv',
        `${book.get('stocktakes.csv')}${all.counts.map((each) => `${each}\n`).join('')}`,
      );
      book.set(
        'purchases.csv',
        table('date,invoice,supplier,material,quantity,amount,currency,tax,tax_reclaimed', all.purchases),
      );
      book.set(
        'purchase_costs.csv',
        table(
          'invoice,what,amount,currency,supplier,tax,tax_reclaimed',
          all.charges.filter((each) => bookInvoices.has(each.split(',')[0])),
        ),
      );
      book.set('made.csv', table('date,product,pieces,bench_hours,wage_per_hour', all.made));
      book.set('used.csv', table('date,item,quantity,reason', all.used));
      book.set('sales.csv', table('date,channel,product,pieces,takings,tax,fees', all.sales));
      return book;
    });
}

/** Every cell of a column as an exact decimal, added up here and not by the sheets. */
function sum({ plan, values }: MonthBook, sheet: string, column: string) {
  const rows = plan.sheets.find(({ id }) => id === sheet)?.rowCount ?? 0;
  let all = exact(0);
  for (let row = 0; row < rows; row += 1) all = all.plus(exact(values.number(sheet, column, row)));
  return all;
}

/** Stock by item: quantity and value. */
function stock(month: MonthBook, when: 'opening' | 'closing'): Map<string, string> {
  const { plan, values } = month;
  const found = new Map<string, string>();
  for (const [sheet, name, quantity] of [
    ['materials', 'material', `${when}_quantity`],
    ['products', 'product', `${when}_pieces`],
  ] as const) {
    const rows = plan.sheets.find(({ id }) => id === sheet)?.rowCount ?? 0;
    for (let row = 0; row < rows; row += 1) {
      const held = exact(values.number(sheet, quantity, row)).toDecimalPlaces(6);
      const value = exact(values.number(sheet, `${when}_value`, row));
      if (!held.eq(0) || !value.eq(0)) found.set(String(values.get(sheet, name, row)), `${held} ${value}`);
    }
  }
  return found;
}

/** What stands in the column of values of `stock`, added up. */
function totalValue(held: ReadonlyMap<string, string>) {
  return [...held.values()].reduce((sum, each) => sum.plus(exact(Number(each.split(' ')[1]))), exact(0));
}

/** Lines of the journal that post changes of closed months, or all others; numbers of entries aside. */
function linesOf({ journal }: MonthBook, ofChanges: boolean) {
  return journal
    .filter(({ text }) => text.startsWith('Changes of closed months') === ofChanges)
    .map(({ entry: _, ...line }) => line);
}

/** Debits less credits of two months together, by posting, in coins; of their own lines only, where that is asked. */
function balancesOf(
  one: MonthBook,
  other: MonthBook,
  only?: { readonly isLate: false },
): Map<string, number> {
  const found = new Map<string, number>();
  for (const { posting, debitCoins, creditCoins, isLate } of [...one.journal, ...other.journal])
    if (only === undefined || isLate === only.isLate)
      found.set(posting, (found.get(posting) ?? 0) + debitCoins - creditCoins);
  return found;
}

function failures({ plan, values }: MonthBook): string[] {
  return plan.sheets.flatMap((sheet) =>
    sheet.columns.flatMap((column) =>
      Array.from({ length: sheet.rowCount }, (_, row) => row)
        .filter((row) => isFailure(values.get(sheet.id, column.id, row)))
        .map((row) => `${sheet.id}.${column.id} ${row}`),
    ),
  );
}

describe.each(Object.keys(currencies) as Currency[])('a month of any history in %s', (currency) => {
  it('balances to the coin, entry by entry; foots; and closes with what the next one opens with', () => {
    fc.assert(
      fc.property(history(currency), (book) => {
        const months = ['2026-09', '2026-10', '2026-11'].map((id) => monthOf(book, id));
        for (const month of months) {
          const { values, journal } = month;
          expect(month.problems.filter(({ severity }) => severity === 'error')).toEqual([]);
          expect(failures(month)).toEqual([]);
          expect(values.get('start', 'sums', 0)).toBe('all well');
          const entries = new Map<string, number>();
          for (const { entry, debitCoins, creditCoins } of journal) {
            expect(Number.isSafeInteger(debitCoins) && Number.isSafeInteger(creditCoins)).toBe(true);
            expect(Math.min(debitCoins, creditCoins)).toBe(0);
            expect(debitCoins + creditCoins).toBeGreaterThan(0);
            entries.set(entry, (entries.get(entry) ?? 0) + debitCoins - creditCoins);
          }
          expect([...entries.values()].filter((left) => left !== 0)).toEqual([]);
          expect(sum(month, 'journal', 'debit').eq(sum(month, 'journal', 'credit'))).toBe(true);
          // The doubles of the sheet are the decimals of whole coins, nothing beside them.
          const digits = currencies[currency];
          for (const sheet of ['journal', 'sales', 'purchases', 'materials', 'products'] as const)
            for (const column of month.plan.sheets.find(({ id }) => id === sheet)?.columns ?? []) {
              if (column.kind !== 'money') continue;
              const rows = month.plan.sheets.find(({ id }) => id === sheet)?.rowCount ?? 0;
              for (let row = 0; row < rows; row += 1) {
                const value = exact(values.number(sheet, column.id, row));
                expect(value.toDecimalPlaces(digits).eq(value), `${sheet}.${column.id}: ${value}`).toBe(true);
              }
            }
        }
        const october = months[1];
        if (october !== undefined)
          expect(disagreements(october.plan, evaluate(october.plan), october.values)).toEqual([]);
        for (const [at, next] of months.slice(1).entries()) {
          const before = months[at];
          if (before === undefined || monthPeriod(next.month.id) === undefined)
            throw new Error('a month is missing');
          const opened = new Map(stock(next, 'opening'));
          for (const [item, held] of stock(before, 'closing'))
            expect(`${item} ${opened.get(item)}`).toBe(`${item} ${held}`);
        }
      }),
      { numRuns: 15 },
    );
  });

  it('opens with what the month before was closed with, whatever has become of the book', () => {
    fc.assert(
      fc.property(history(currency), history(currency), (book, other) => {
        const september = monthOf(book, '2026-09');
        const closed = new Map([
          [
            'closed/2026-09.csv',
            closedText(
              { month: '2026-09', closedOn: '2026-10-02', currency, figures: september.figures },
              sha256,
            ),
          ],
        ]);
        // The same book: nothing moves.
        expect(monthOf(book, '2026-09', closed).changes).toEqual([]);
        const plain = monthOf(book, '2026-10');
        const after = monthOf(book, '2026-10', closed);
        expect(linesOf(after, false)).toEqual(linesOf(plain, false));
        // Save opening balances of October, which the closed month did not know of: they are posted, and no more.
        const opened = totalValue(stock(plain, 'opening')).minus(totalValue(stock(september, 'closing')));
        const posted = linesOf(after, true)
          .filter(({ posting }) => posting === 'stock_difference')
          .reduce((sum, { debitCoins, creditCoins }) => sum + creditCoins - debitCoins, 0);
        expect(opened.times(10 ** currencies[currency]).toNumber()).toBe(posted);
        // Another one: what was closed stands, and the difference beside it.
        const october = monthOf(other, '2026-10', closed);
        expect(october.values.get('start', 'sums', 0)).toBe('all well');
        const opening = stock(october, 'opening');
        for (const [item, held] of stock(september, 'closing'))
          expect(`${item} ${opening.get(item)}`).toBe(`${item} ${held}`);
        const asNow = monthOf(other, '2026-10');
        expect(stock(october, 'closing')).toEqual(stock(asNow, 'closing'));
        // Once October is closed as well, every account but that of differences holds what it should: nothing is left.
        closed.set(
          'closed/2026-10.csv',
          closedText(
            { month: '2026-10', closedOn: '2026-11-02', currency, figures: october.figures },
            sha256,
          ),
        );
        const handedOver = balancesOf(september, october);
        // What September should have been, by the tax and fees that it was closed with.
        const should = balancesOf(monthOf(other, '2026-09', closed), october, { isLate: false });
        const ofStock = new Set(['materials', 'finished_goods', 'stock_difference']);
        for (const posting of new Set([...handedOver.keys(), ...should.keys()]))
          if (!ofStock.has(posting))
            expect(`${posting} ${handedOver.get(posting) ?? 0}`).toBe(
              `${posting} ${should.get(posting) ?? 0}`,
            );
        // Save opening balances of November, as above.
        const left = linesOf(monthOf(other, '2026-11', closed), true).map(({ posting }) => posting);
        expect(left.filter((posting) => !ofStock.has(posting))).toEqual([]);
      }),
      { numRuns: 4 },
    );
  });
});
