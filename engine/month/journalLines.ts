import { dayText } from '../book/measures/day.ts';
import type { MonthPeriod } from './monthPeriod.ts';
import { type Posting, postingWords } from './postings.ts';

/** A line of the journal before its amount, which a formula reads from the sheet that it comes from. */
export interface JournalLine {
  readonly entry: string;
  readonly day: number;
  readonly text: string;
  readonly posting: Posting;
  /** Blank where the posting is of no channel. */
  readonly channel: string;
  /** What the amount is, in the words of the sheet Journal. */
  readonly source: string;
  /** The line of the other sheet; blank where it is a total. */
  readonly subject: string;
  readonly side: 'debit' | 'credit';
}

/** What there is to post in a month. */
export interface PostedThings {
  readonly channels: readonly string[];
  readonly invoices: readonly {
    readonly line: string;
    readonly day: number;
    readonly number: string;
    readonly supplier: string;
    readonly isReturn: boolean;
  }[];
  readonly charges: readonly {
    readonly line: string;
    readonly day: number;
    readonly billDay: number;
    readonly invoice: string;
    readonly supplier: string;
    readonly bill: string;
    readonly what: string;
  }[];
  readonly takenTo: readonly {
    readonly posting: Posting;
    readonly stock: 'materials' | 'finished goods';
  }[];
  /** Lines of the sheet on which changes of closed months stand. */
  readonly late: readonly {
    readonly line: string;
    readonly posting: Posting;
    readonly channel: string;
    /** The entries of closed months that it changes. */
    readonly about: string;
  }[];
}

/** The source of what has changed in closed months. */
export const lateSource = 'changes of closed months';
/** What the text of its lines begins with. */
export const lateText = 'Changes of closed months';

/**
 * The number of an entry of a month. No month gives one that another gave; and it begins with a letter, so that no
 * spreadsheet program takes it for a date.
 */
export function entryNumber(month: MonthPeriod, count: number): string {
  return `J-${month.id}-${String(count).padStart(3, '0')}`;
}

type Leg = readonly [side: 'debit' | 'credit', posting: Posting, source: string, subject?: string];

/**
 * The lines of a month's journal, entry by entry. In every entry the sources of the debits add up to those of the
 * credits, so that it balances whatever the amounts are.
 */
export function journalLines(month: MonthPeriod, things: PostedThings): JournalLine[] {
  const lines: JournalLine[] = [];
  let entries = 0;
  const post = (day: number, text: string, legs: readonly Leg[], channel = ''): void => {
    entries += 1;
    for (const [side, posting, source, subject = ''] of legs)
      lines.push({ entry: `entry ${entries}`, day, text, posting, channel, source, subject, side });
  };
  for (const { line, day, number, supplier, isReturn } of things.invoices) {
    const goods =
      number === '' ? (isReturn ? 'goods' : 'Purchases') : `${isReturn ? 'invoice' : 'Invoice'} ${number}`;
    const text = [isReturn ? `Went back, ${goods}` : goods, supplier].filter((each) => each !== '');
    post(day, text.join(', '), [
      ['debit', 'materials', 'invoice, into stock', line],
      ['debit', 'tax_paid', 'invoice, tax reclaimed', line],
      ['credit', 'suppliers', 'invoice', line],
    ]);
  }
  for (const { line, day, billDay, invoice, what, supplier, bill } of things.charges) {
    const said = [bill, billDay === day ? '' : `of ${dayText(billDay)}`].filter((each) => each !== '');
    const paper = said.length === 0 ? '' : `bill ${said.join(' ')}`;
    const text = [`${sentence(what)} for invoice ${invoice}`, paper, supplier].filter((each) => each !== '');
    post(day, text.join(', '), [
      ['debit', 'materials', 'freight and duty, into stock', line],
      ['debit', 'tax_paid', 'freight and duty, tax reclaimed', line],
      ['credit', 'suppliers', 'freight and duty', line],
    ]);
  }
  post(month.last, 'Returns to suppliers, beside their cost', [
    ['debit', 'stock_difference', 'returns to suppliers'],
    ['credit', 'materials', 'returns to suppliers'],
  ]);
  post(month.last, 'Pieces made', [
    ['debit', 'finished_goods', 'made'],
    ['credit', 'materials', 'made, materials'],
    ['credit', 'labour_absorbed', 'made, labour'],
    ['credit', 'overhead_absorbed', 'made, overhead'],
  ]);
  for (const channel of things.channels) {
    post(
      month.last,
      `Sales, ${channel}`,
      [
        ['debit', 'channel_receivable', 'sales with tax', channel],
        ['credit', 'sales', 'sales', channel],
        ['credit', 'tax_collected', 'tax on sales', channel],
      ],
      channel,
    );
    post(
      month.last,
      `Returns, ${channel}`,
      [
        ['debit', 'sales_returns', 'returns', channel],
        ['debit', 'tax_collected', 'tax on returns', channel],
        ['credit', 'channel_receivable', 'returns with tax', channel],
      ],
      channel,
    );
    post(
      month.last,
      `Fees, ${channel}`,
      [
        ['debit', 'fees', 'fees', channel],
        ['credit', 'channel_receivable', 'fees', channel],
      ],
      channel,
    );
  }
  post(month.last, 'Cost of sales, less returns', [
    ['debit', 'cost_of_sales', 'cost of sales'],
    ['credit', 'finished_goods', 'cost of sales'],
  ]);
  const told = new Set<string>();
  for (const { posting, stock } of things.takenTo) {
    const source = `taken from ${stock}`;
    if (told.has(`${posting}|${source}`)) continue;
    told.add(`${posting}|${source}`);
    post(month.last, `${sentence(postingWords(posting))}, ${stock}`, [
      ['debit', posting, source, postingWords(posting)],
      ['credit', stock === 'materials' ? 'materials' : 'finished_goods', source, postingWords(posting)],
    ]);
  }
  for (const [stock, posting] of [
    ['materials', 'materials'],
    ['finished goods', 'finished_goods'],
  ] as const) {
    post(month.last, `Stocktake of ${stock}`, [
      ['debit', posting, `stocktake of ${stock}`],
      ['credit', 'stock_difference', `stocktake of ${stock}`],
    ]);
    post(month.last, `Corrections of ${stock}`, [
      ['debit', posting, `corrections of ${stock}`],
      ['credit', 'stock_difference', `corrections of ${stock}`],
    ]);
  }
  // One entry: only all of them together balance.
  entries += 1;
  const entry = `entry ${entries}`;
  for (const { line: subject, posting, channel, about } of things.late)
    lines.push({
      entry,
      day: month.last,
      text: `${lateText}: ${about}`,
      posting,
      channel,
      source: lateSource,
      subject,
      side: 'debit',
    });
  // By days; what is of one day stays as it is told above.
  return lines.sort((one, other) => one.day - other.day);
}

function sentence(text: string): string {
  return `${text.slice(0, 1).toUpperCase()}${text.slice(1)}`;
}
