import { type Book, sameKey } from '../book/book.ts';
import { type Place, type Problem, problem } from '../book/problems/problem.ts';
import { coinsOf, type Exact, exact, exactOf } from '../money/exact.ts';
import { dayRates } from './dayRates.ts';
import type { Item } from './items.ts';
import type { Move } from './move.ts';
import { type BoughtLine, shareCosts } from './purchaseCosts.ts';
import { datedRows, type Row } from './rows.ts';
import type { TermsOn } from './terms.ts';

/** A line of a purchase in smallest coins of the book's currency; all of it negative for what went back. */
export interface PurchaseLine {
  readonly day: number;
  readonly invoice: string;
  readonly supplier: string;
  readonly material: string;
  readonly quantity: Exact;
  /** Three letters; the book's own where the row names none. */
  readonly currency: string;
  readonly rate: Exact;
  readonly rateFrom: string;
  readonly netCoins: number;
  readonly freightCoins: number;
  readonly dutyCoins: number;
  readonly otherCoins: number;
  /** Its share of tax on bills for freight and duty that is reclaimed, and so in no cost. */
  readonly reclaimedTaxCoins: number;
  /** All tax on the line, and what of it is not reclaimed and so belongs to its cost. */
  readonly taxCoins: number;
  readonly taxInCostCoins: number;
  readonly landedCoins: number;
  readonly place: Place;
}

/** Reads what was bought and what it cost to bring it in. Only rows that are whole become lines. */
export function readPurchases(
  book: Book,
  items: ReadonlyMap<string, Item>,
  termsOn: TermsOn,
  problems: Problem[],
): PurchaseLine[] {
  const rateOf = dayRates(book, termsOn, problems);
  const digits = book.settings.currencyDigits;
  const lines = datedRows(book, 'purchases').flatMap((row): BoughtLine[] => {
    const item = items.get(sameKey(row.text('material')));
    const amount = row.number('amount');
    const tax = row.number('tax');
    if (item === undefined || amount === null) return [];
    const quantity = quantityOf(row, item, problems);
    if (quantity === undefined) return [];
    if ((quantity.gt(0) && amount < 0) || (quantity.lt(0) && amount > 0)) {
      problems.push(oppositeSigns(row, amount));
      return [];
    }
    const { rate, from } = rateOf(row.text('currency'), row.day, row.place);
    const inBook = (value: number): number => coinsOf(exactOf(value).times(rate), digits);
    return [
      {
        row,
        day: row.day,
        item,
        quantity,
        rate,
        rateFrom: from,
        netCoins: inBook(amount),
        taxCoins: tax === null ? null : inBook(tax),
      },
    ];
  });
  const shares = shareCosts(book, lines, rateOf, problems);
  return lines.map((line, at) => {
    const { freightCoins, dutyCoins, otherCoins, ownTaxedCoins, reclaimedTaxCoins } = shares[at]!;
    const beforeTax = line.netCoins + freightCoins + dutyCoins + otherCoins;
    const tax = taxOf(
      line,
      beforeTax - ownTaxedCoins,
      termsOn(line.day).unreclaimedTax.get(sameKey(line.item.item)) ?? 0,
    );
    return {
      day: line.day,
      invoice: line.row.text('invoice'),
      supplier: line.row.text('supplier'),
      material: line.item.item,
      quantity: line.quantity,
      currency: line.row.text('currency').toUpperCase() || book.settings.currency,
      rate: line.rate,
      rateFrom: line.rateFrom,
      netCoins: line.netCoins,
      freightCoins,
      dutyCoins,
      otherCoins,
      reclaimedTaxCoins,
      taxCoins: tax.all,
      taxInCostCoins: tax.inCost,
      landedCoins: beforeTax + tax.inCost,
      place: line.row.place,
    };
  });
}

/** Of a blank cell the tax that the material says is not reclaimed, worked out as the sheet Materials does. */
function taxOf(line: BoughtLine, beforeTaxCoins: number, ratio: number): { all: number; inCost: number } {
  const all = line.taxCoins ?? coinsOf(exact(beforeTaxCoins).times(exactOf(ratio)), 0);
  const said = line.row.text('tax_reclaimed');
  const isReclaimed = said === '' ? ratio === 0 : said === 'yes';
  return { all, inCost: isReclaimed ? 0 : all };
}

function quantityOf(row: Row, item: Item, problems: Problem[]): Exact | undefined {
  const quantity = row.number('quantity');
  const packs = row.number('packs');
  if (quantity !== null && packs !== null) {
    problems.push(
      problem('cell-clash', row.place, 'The row has both a quantity and packs.', {
        found: `${quantity} and ${packs} packs`,
        accepted: 'one of the two',
        mend: 'Clear one of the cells.',
      }),
    );
    return undefined;
  }
  const meant =
    quantity !== null
      ? exactOf(quantity)
      : packs !== null
        ? exactOf(packs).times(exactOf(item.pack))
        : undefined;
  if (meant !== undefined && !meant.eq(0)) return meant;
  problems.push(
    problem(
      'cell-missing',
      { ...row.place, column: 'quantity' },
      'The row does not say how much was bought.',
      {
        accepted: `a quantity (${item.unit}) or a number of packs, negative for what went back`,
        mend: 'Fill in quantity or packs.',
      },
    ),
  );
  return undefined;
}

function oppositeSigns(row: Row, amount: number): Problem {
  return problem(
    'out-of-range',
    { ...row.place, column: 'amount' },
    'Quantity and amount have opposite signs.',
    {
      found: String(amount),
      accepted: 'both positive for what was bought, both negative for what went back to the supplier',
      mend: 'Correct one of the two signs.',
    },
  );
}

/** Purchases as movements of stock. */
export function purchaseMoves(lines: readonly PurchaseLine[]): Move[] {
  return lines.map((line) => ({
    day: line.day,
    item: line.material,
    what: line.quantity.gt(0) ? 'bought' : 'returned to supplier',
    quantity: line.quantity,
    ownCoins: line.landedCoins,
    origin: line.invoice,
    partner: line.supplier,
    place: line.place,
  }));
}
