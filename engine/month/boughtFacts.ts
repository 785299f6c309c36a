import type { Book } from '../book/book.ts';
import { exactOf, moneyOf } from '../money/exact.ts';
import { dayRates } from '../stock/dayRates.ts';
import type { PurchaseLine } from '../stock/purchases.ts';
import { rowsOf } from '../stock/rows.ts';
import type { StockLedger } from '../stock/stockLedger.ts';
import type { ChargeFact, PurchaseFact } from './monthFacts.ts';
import type { MonthPeriod } from './monthPeriod.ts';

/** The purchases of a month, with their amounts as the invoice has them. */
export function purchaseFacts(month: MonthPeriod, ledger: StockLedger, book: Book): PurchaseFact[] {
  const written = new Map(rowsOf(book, 'purchases').map((row) => [row.place, row]));
  const wentBack = new Map(
    ledger.moves
      .filter(({ what }) => what === 'returned to supplier')
      .map(({ place, valueCoins }) => [place, valueCoins]),
  );
  return linesOf(month, ledger).map((line) => {
    const row = written.get(line.place);
    const tax = row?.number('tax') ?? null;
    return {
      day: line.day,
      invoice: line.invoice,
      supplier: line.supplier,
      material: line.material,
      quantity: line.quantity.toNumber(),
      amount: row?.number('amount') ?? 0,
      tax,
      taxCoins: line.taxCoins,
      currency: line.currency,
      rate: line.rate.toNumber(),
      rateFrom: line.rateFrom,
      isReclaimed: line.taxInCostCoins === 0,
      freightCoins: line.freightCoins,
      dutyCoins: line.dutyCoins,
      otherCoins: line.otherCoins,
      stockCoins: wentBack.get(line.place) ?? line.landedCoins,
    };
  });
}

/**
 * What it cost to bring the purchases of a month in: rows of `purchase_costs.csv`. Where goods of one invoice came in
 * over more than one month, each month has the shares of its own lines.
 */
export function chargeFacts(month: MonthPeriod, ledger: StockLedger, book: Book): ChargeFact[] {
  const rateOf = dayRates(book, ledger.termsOn, []);
  const { currency: own, currencyDigits } = book.settings;
  const inMonth = linesOf(month, ledger).filter((line) => line.quantity.gt(0) && line.invoice !== '');
  const facts: ChargeFact[] = [];
  for (const invoice of new Set(inMonth.map((line) => line.invoice))) {
    const lines = inMonth.filter((line) => line.invoice === invoice);
    const all = ledger.purchases.filter((line) => line.invoice === invoice && line.quantity.gt(0));
    const [first] = all;
    if (first === undefined) continue;
    const rows = rowsOf(book, 'purchase_costs').filter((row) => row.text('invoice') === invoice);
    if (all.length === lines.length) {
      for (const row of rows) {
        const amount = row.number('amount');
        if (amount === null) continue;
        const day = row.number('date') ?? first.day;
        const { rate, from } = rateOf(row.text('currency'), day, row.place);
        facts.push({
          day: Math.min(Math.max(day, month.first), month.last),
          billDay: day,
          invoice,
          supplier: row.text('supplier'),
          bill: row.text('bill'),
          what: row.text('what'),
          splitBy: row.text('split_by'),
          amount: exactOf(amount).toNumber(),
          tax: row.number('tax'),
          isReclaimed: row.text('tax_reclaimed') !== 'no',
          currency: row.text('currency').toUpperCase() || own,
          rate: rate.toNumber(),
          rateFrom: from,
        });
      }
      continue;
    }
    for (const [what, of] of shares) {
      const coins = lines.reduce((sum, line) => sum + of(line), 0);
      const isTax = what === taxShare;
      if (coins === 0) continue;
      facts.push({
        day: lines[0]?.day ?? month.last,
        billDay: lines[0]?.day ?? month.last,
        invoice,
        supplier: '',
        bill: '',
        what,
        splitBy: 'shares of this month',
        amount: isTax ? 0 : moneyOf(coins, currencyDigits),
        tax: isTax ? moneyOf(coins, currencyDigits) : null,
        isReclaimed: true,
        currency: own,
        rate: 1,
        rateFrom: '',
      });
    }
  }
  return facts;
}

/** Tax that is reclaimed is no part of the shares, which are what stock has cost. */
const taxShare = 'tax on freight and duty';

const shares: readonly (readonly [string, (line: PurchaseLine) => number])[] = [
  ['freight', (line) => line.freightCoins],
  ['duty', (line) => line.dutyCoins],
  ['other', (line) => line.otherCoins],
  [taxShare, (line) => line.reclaimedTaxCoins],
];

function linesOf(month: MonthPeriod, ledger: StockLedger): PurchaseLine[] {
  return ledger.purchases.filter(({ day }) => day >= month.first && day <= month.last);
}
