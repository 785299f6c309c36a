import { sameKey, type Table } from '../book/book.ts';
import { moneyOf } from '../money/exact.ts';
import { entryNumber, type JournalLine, journalLines } from './journalLines.ts';
import { lateAbout, lateLineRows, latePostings, lateRows } from './lateTables.ts';
import type { MonthFacts } from './monthFacts.ts';
import type { MonthPeriod } from './monthPeriod.ts';
import { AccountLines, invoicesOf, type Row, TaxLines } from './numberedLines.ts';
import { type Accounts, postingWords } from './postings.ts';

/** The tables of a month's workbook: facts, with the names by which one sheet finds the lines of another. */
export interface MonthTables {
  readonly tables: ReadonlyMap<string, Table>;
  readonly journal: readonly JournalLine[];
}

/**
 * Lays out a month as tables for its sheets. They hold what was found and nothing that a formula can say. Names that
 * formulas look for are ours ("product 3"), as a maker's may read as patterns.
 *
 * @param digits of the currency's smallest coin
 * @param isWanted which lines of the journal to keep; all, where nothing is known of their amounts yet
 */
export function monthTables(
  facts: MonthFacts,
  month: MonthPeriod,
  accounts: Accounts,
  digits: number,
  isWanted: (line: JournalLine) => boolean = () => true,
): MonthTables {
  const money = (coins: number): number => moneyOf(coins, digits);
  const numberOf = new Map([
    ...facts.materials.map(({ material }, at) => [`m|${sameKey(material)}`, `material ${at + 1}`] as const),
    ...facts.products.map(({ product }, at) => [`p|${sameKey(product)}`, `product ${at + 1}`] as const),
  ]);
  const materialNumber = (name: string): string => numberOf.get(`m|${sameKey(name)}`) ?? '';
  const productNumber = (name: string): string => numberOf.get(`p|${sameKey(name)}`) ?? '';
  const channels = facts.channels.filter(({ channel }) =>
    facts.sales.some((sale) => sameKey(sale.channel) === sameKey(channel)),
  );
  // Rows of one owner stand together.
  const sales = channels.flatMap(({ channel }) =>
    facts.sales.filter((sale) => sameKey(sale.channel) === sameKey(channel)),
  );
  const invoices = invoicesOf(facts.purchases);
  const taxed = new TaxLines();
  const saleRows = sales.map((sale, at): Row => {
    const channel = channels.find((each) => sameKey(each.channel) === sameKey(sale.channel));
    const ratio = channel?.taxRatio ?? 0;
    return {
      line: `sale ${at + 1}`,
      date: sale.day,
      channel: channel?.channel ?? sale.channel,
      product: sale.product,
      item: productNumber(sale.product),
      receipt: sale.receipt,
      pieces: sale.pieces,
      takings: money(sale.takingsCoins),
      includes_tax: channel?.includesTax === true ? 'yes' : 'no',
      tax_rate: ratio,
      tax_told: sale.taxCoins === null ? null : money(sale.taxCoins),
      tax_line: taxed.line('collected', channel?.channel ?? sale.channel, ratio),
      fees_told: sale.feesCoins === null ? null : money(sale.feesCoins),
      cost: money(sale.costCoins),
    };
  });
  const purchaseRows = invoices.flatMap(({ invoice, lines }) =>
    lines.map((line): Row => {
      const side = line.isReclaimed ? 'paid, reclaimed' : 'paid, not reclaimed';
      return {
        date: line.day,
        invoice,
        number: line.invoice,
        supplier: line.supplier,
        material: line.material,
        item: materialNumber(line.material),
        quantity: line.quantity,
        amount: line.amount,
        tax_amount: line.tax,
        tax_worked_out: line.tax === null ? money(line.taxCoins) : null,
        currency: line.currency,
        rate: line.rate,
        rate_from: rateWords(line.rateFrom),
        reclaimed: line.isReclaimed ? 'yes' : 'no',
        tax_line: taxed.line(line.taxCoins === 0 ? 'none' : side, 'purchases', null),
        freight: money(line.freightCoins),
        duty: money(line.dutyCoins),
        other: money(line.otherCoins),
        stock_told: line.quantity < 0 ? money(line.stockCoins) : null,
      };
    }),
  );
  const chargeTaxLine = (isReclaimed: boolean): string =>
    taxed.line(isReclaimed ? 'paid, reclaimed' : 'paid, not reclaimed', 'freight and duty', null);
  const charges = facts.charges.map((charge, at) => ({ ...charge, line: `charge ${at + 1}` }));
  const taken = facts.taken.map(
    (each): Row => ({
      date: each.day,
      name: each.item,
      item: each.stock === 'materials' ? materialNumber(each.item) : productNumber(each.item),
      stock: each.stock,
      reason: each.reason,
      goes_to: postingWords(postingOfReason(each.reason)),
      quantity: each.quantity,
      value: money(each.valueCoins),
    }),
  );
  const late = latePostings(facts);
  if (late.some(({ posting }) => posting === 'tax_collected'))
    taxed.line('collected late', 'closed months', null);
  if (late.some(({ posting }) => posting === 'tax_paid')) taxed.line('reclaimed late', 'closed months', null);
  const journal = journalLines(month, {
    channels: channels.map(({ channel }) => channel),
    invoices: invoices.map(({ invoice, first }) => ({
      line: invoice,
      day: first.day,
      number: first.invoice,
      supplier: first.supplier,
      isReturn: first.quantity < 0,
    })),
    charges,
    takenTo: facts.taken.map(({ reason, stock }) => ({ posting: postingOfReason(reason), stock })),
    late: late.map((each) => ({ ...each, about: lateAbout(each, facts.lateLines) })),
  }).filter(isWanted);
  const used = new AccountLines(accounts);
  const entries = [...new Set(journal.map(({ entry }) => entry))];
  const journalRows = journal.map(
    (line, at): Row => ({
      line: `line ${at + 1}`,
      entry: entryNumber(month, entries.indexOf(line.entry) + 1),
      date: line.day,
      text: line.text,
    }),
  );
  const postedRows = journal.map(
    (line, at): Row => ({
      line: `line ${at + 1}`,
      entry: journalRows[at]?.entry ?? '',
      account: used.line(line),
      posting: postingWords(line.posting),
      channel: line.channel,
      source: line.source,
      subject: line.subject,
      side: line.side,
    }),
  );
  const tables: readonly (readonly [string, readonly Row[]])[] = [
    ['sales', saleRows],
    [
      'channels',
      channels.map((each) => ({
        channel: each.channel,
        fee_on_net: each.feeOnNet,
        fee_on_gross: each.feeOnGross,
        fee_fixed: each.feeFixed,
        pieces_per_order: each.piecesPerOrder,
        postage_paid: each.postagePaid,
      })),
    ],
    [
      'invoices',
      invoices.map(({ invoice, first }) => ({
        invoice,
        number: first.invoice,
        kind: first.quantity < 0 ? 'went back' : 'came in',
        date: first.day,
        supplier: first.supplier,
      })),
    ],
    ['purchases', purchaseRows.map((row, at) => ({ line: `purchase ${at + 1}`, ...row }))],
    [
      'charges',
      charges.map((each) => ({
        line: each.line,
        date: each.billDay,
        number: each.invoice,
        what: each.what,
        supplier: each.supplier,
        bill: each.bill,
        split_by: each.splitBy,
        amount: each.amount,
        tax_amount: each.tax,
        currency: each.currency,
        rate: each.rate,
        rate_from: rateWords(each.rateFrom),
        reclaimed: each.tax === null ? '' : each.isReclaimed ? 'yes' : 'no',
        tax_line: each.tax === null || each.tax === 0 ? '' : chargeTaxLine(each.isReclaimed),
      })),
    ],
    ['taken', taken.map((row, at) => ({ line: `taken ${at + 1}`, ...row }))],
    [
      'materials',
      facts.materials.map((each) => ({
        number: materialNumber(each.material),
        material: each.material,
        unit: each.unit,
        opening_quantity: each.openingQuantity,
        late_quantity: each.lateQuantity,
        used_quantity: each.usedQuantity,
        counted_quantity: each.countedQuantity,
        opening_value: money(each.openingCoins),
        late_value: money(each.lateCoins),
        used_value: money(each.usedCoins),
        counted_value: money(each.countedCoins),
        corrected_value: money(each.correctedCoins),
        times_below: each.timesBelow,
        found_quantity: each.closingQuantity,
        found_value: money(each.closingCoins),
      })),
    ],
    [
      'products',
      facts.products.map((each) => ({
        number: productNumber(each.product),
        product: each.product,
        opening_pieces: each.openingQuantity,
        late_pieces: each.lateQuantity,
        made_pieces: each.madeQuantity,
        counted_pieces: each.countedQuantity,
        opening_value: money(each.openingCoins),
        late_value: money(each.lateCoins),
        made_materials: money(each.materialsCoins),
        made_labour: money(each.labourCoins),
        made_overhead: money(each.overheadCoins),
        counted_value: money(each.countedCoins),
        corrected_value: money(each.correctedCoins),
        times_below: each.timesBelow,
        found_pieces: each.closingQuantity,
        found_value: money(each.closingCoins),
      })),
    ],
    [
      'margins',
      facts.products
        .filter(({ product }) => sales.some((sale) => sameKey(sale.product) === sameKey(product)))
        .map(({ product }) => ({ number: productNumber(product) })),
    ],
    [
      'variances',
      facts.variances.map((each, at) => ({
        line: `variance ${at + 1}`,
        of: each.of,
        name: each.name,
        price: each.price,
        usage: each.usage,
        lost: each.lost,
        wage_rate: each.wageRate,
        efficiency: each.efficiency,
        overhead: each.overhead,
      })),
    ],
    ['late', lateRows(late, accounts, money)],
    ['late_lines', lateLineRows(facts.lateLines, money)],
    ['tax', taxed.rows()],
    ['journal', journalRows],
    ['posted', postedRows],
    ['accounts', used.rows()],
  ];
  return { tables: new Map(tables.map(([name, rows]) => [name, tableOf(name, rows)])), journal };
}

/** Rows as a table; an empty text is a blank cell, as in any table. */
function tableOf(name: string, rows: readonly Row[]): Table {
  const columns = [...new Set(rows.flatMap((row) => Object.keys(row)))];
  return {
    name,
    rowCount: rows.length,
    columns: new Map(
      columns.map((column) => [
        column,
        rows.map((row) => (row[column] === '' ? null : (row[column] ?? null))),
      ]),
    ),
    places: rows.map(() => ({ file: name })),
  };
}

/** The day of a rate, for people who do not know the book's files. */
function rateWords(from: string): string {
  return from === 'exchange.csv' ? 'the book, for any day' : from.replace(/^day_rates\.csv /, '');
}

/** Where the value goes of what was taken for a reason. */
function postingOfReason(reason: string): 'abnormal_waste' | 'samples_and_gifts' | 'own_use' | 'other_use' {
  if (reason === 'waste') return 'abnormal_waste';
  if (reason === 'sample' || reason === 'gift') return 'samples_and_gifts';
  return reason === 'own use' ? 'own_use' : 'other_use';
}
