import type { Book } from '../book/book.ts';
import { mendName } from '../book/problems/nearest.ts';
import { type Place, type Problem, problem } from '../book/problems/problem.ts';
import { coinsOf, type Exact, exact, exactOf } from '../money/exact.ts';
import { splitCoins } from '../money/split.ts';
import type { DayRate } from './dayRates.ts';
import { gather } from './gather.ts';
import type { Item } from './items.ts';
import { type Row, rowsOf } from './rows.ts';

/** A line of a purchase before what it cost to bring it in. */
export interface BoughtLine {
  readonly row: Row;
  readonly day: number;
  readonly item: Item;
  readonly quantity: Exact;
  readonly rate: Exact;
  readonly rateFrom: string;
  readonly netCoins: number;
  /** Null where the cell is blank. */
  readonly taxCoins: number | null;
}

interface Shares {
  freightCoins: number;
  dutyCoins: number;
  otherCoins: number;
  /** What of these is of bills that say their own tax, so that none is worked out on it. */
  ownTaxedCoins: number;
  /** Tax on those bills that is reclaimed, and so is in none of these. */
  reclaimedTaxCoins: number;
}

/** Shares freight, duty and the like out over the lines of their invoice, to the coin; what went back bears none. */
export function shareCosts(
  book: Book,
  lines: readonly BoughtLine[],
  rateOf: (currency: string, day: number, place: Place) => DayRate,
  problems: Problem[],
): Shares[] {
  const shares = lines.map(
    (): Shares => ({ freightCoins: 0, dutyCoins: 0, otherCoins: 0, ownTaxedCoins: 0, reclaimedTaxCoins: 0 }),
  );
  const invoices = new Map<string, number[]>();
  lines.forEach((line, at) => {
    const invoice = line.row.text('invoice');
    if (invoice === '' || !line.quantity.gt(0)) return;
    gather(invoices, invoice, at);
  });
  for (const row of rowsOf(book, 'purchase_costs')) {
    const invoice = row.text('invoice');
    const amount = row.number('amount');
    if (invoice === '' || amount === null) continue;
    const ofInvoice = invoices.get(invoice) ?? [];
    const goods = ofInvoice.flatMap((at) => lines[at]!);
    const [first] = goods;
    if (first === undefined) {
      problems.push(unknownInvoice(row, [...invoices.keys()]));
      continue;
    }
    const { rate } = rateOf(row.text('currency'), row.number('date') ?? first.day, row.place);
    const inBook = (value: number): number =>
      coinsOf(exactOf(value).times(rate), book.settings.currencyDigits);
    const tax = row.number('tax');
    const taxCoins = inBook(tax ?? 0);
    const isReclaimed = row.text('tax_reclaimed') !== 'no';
    const coins = inBook(amount) + (isReclaimed ? 0 : taxCoins);
    const weights =
      row.text('split_by') === 'weight' ? byWeight(row, goods, problems) : byValue(row, goods, problems);
    if (weights === undefined) continue;
    const reclaimed = splitCoins(isReclaimed ? taxCoins : 0, weights);
    splitCoins(coins, weights).forEach((share, index) => {
      const of = shares[ofInvoice[index]!];
      if (of === undefined) return;
      if (tax !== null) of.ownTaxedCoins += share;
      of.reclaimedTaxCoins += reclaimed[index] ?? 0;
      const what = row.text('what');
      if (what === 'freight') of.freightCoins += share;
      else if (what === 'duty') of.dutyCoins += share;
      else of.otherCoins += share;
    });
  }
  return shares;
}

function byValue(row: Row, goods: readonly BoughtLine[], problems: Problem[]): Exact[] | undefined {
  const values = goods.map(({ netCoins }) => exact(netCoins));
  if (values.some((value) => value.gt(0))) return values;
  problems.push(
    problem(
      'check-failed',
      row.place,
      'The goods of this invoice cost nothing, so nothing can be shared out by value.',
      {
        found: row.text('invoice'),
        accepted: 'goods with an amount, or weight under split_by',
        mend: 'Give the goods an amount, or share it out by weight.',
      },
    ),
  );
  return undefined;
}

function byWeight(row: Row, goods: readonly BoughtLine[], problems: Problem[]): Exact[] | undefined {
  const unweighed = goods.filter(({ item }) => item.unitWeight === null);
  if (unweighed.length === 0) {
    const weights = goods.map(({ item, quantity }) => quantity.times(exactOf(item.unitWeight ?? 0)));
    if (weights.some((weight) => weight.gt(0))) return weights;
  }
  const names = [...new Set((unweighed.length > 0 ? unweighed : goods).map(({ item }) => item.item))];
  problems.push(
    problem(
      'check-failed',
      { ...row.place, column: 'split_by' },
      `Nothing can be shared out by weight: the weight of ${names.join(', ')} is not known.`,
      {
        found: 'weight',
        accepted: 'a weight or a cord kind in materials.csv for each of them, or value',
        mend: 'Write what one weighs into materials.csv, or share it out by value.',
      },
    ),
  );
  return undefined;
}

function unknownInvoice(row: Row, known: readonly string[]): Problem {
  const invoice = row.text('invoice');
  return problem(
    'reference-unknown',
    { ...row.place, column: 'invoice' },
    `No goods were bought with the invoice “${invoice}”.`,
    { found: invoice, accepted: 'an invoice of purchases.csv', mend: mendName(invoice, [...known]) },
  );
}
