import { type MonthReport, type StockMonth, showValue } from '../../engine/index.ts';
import type { ShowHow } from './showHow.ts';
import { count } from './showProblems.ts';
import { type TableColumn, table, wrap } from './table.ts';

interface MonthHow extends ShowHow {
  /** Files that were written or moved. */
  readonly written: readonly string[];
  /** Sheets of the workbook. */
  readonly sheets: number;
  /** The month was closed just now. */
  readonly closes: boolean;
}

/** The month at a glance, and where the rest of it is. */
export function showMonth(report: MonthReport, how: MonthHow): string {
  const lines = (text: string): string => wrap(text, how.width).join('\n');
  const parts = [lines(summary(report, how))];
  if (report.channels.length > 0) parts.push(channelTable(report, how));
  parts.push(stockTable(report, how));
  parts.push(
    [taxLine(report, how), journalLine(report, how), ...lateLine(report, how), caution].map(lines).join('\n'),
  );
  parts.push(lines(writtenLine(report, how)));
  return `${parts.map((part) => part.trimEnd()).join('\n\n')}\n`;
}

/** The same in sentences. */
export function tellMonth(report: MonthReport, how: MonthHow): string {
  const money = moneyBy(how);
  const channels = report.channels.map(
    (each) =>
      `${each.channel}: ${pieces(each)}; net ${money(each.net)}, tax ${money(each.tax)}, fees ${money(each.fees)}, should arrive ${money(each.shouldArrive)}; cost of sales ${money(each.costOfSales)}, gross margin ${money(each.grossMargin)}.`,
  );
  const stock = (name: string, comes: string, goes: string, of: StockMonth): string =>
    `${name}: ${[
      `at first ${money(of.opening)}`,
      ...(of.changedSinceClosing === 0 ? [] : [`changed since closing ${money(of.changedSinceClosing)}`]),
      `${comes} ${money(of.in)}`,
      `${goes} ${money(of.out)}`,
      `taken out ${money(of.taken)}`,
      `stocktake difference ${money(of.counted)}`,
      ...(of.corrected === 0 ? [] : [`corrections ${money(of.corrected)}`]),
      `at the end ${money(of.closing)}`,
    ].join(', ')}.`;
  return `${[
    `${summary(report, how)} Amounts in ${report.currency}.`,
    ...channels,
    stock('Materials', 'bought', 'into pieces', report.materials),
    stock('Finished goods', 'made', 'sold', report.finishedGoods),
    taxLine(report, how),
    journalLine(report, how),
    ...lateLine(report, how),
    caution,
    writtenLine(report, how),
  ].join('\n')}\n`;
}

const caution = 'Figures for a bookkeeper, no tax advice: local rules and a licensed professional decide.';

function moneyBy(how: MonthHow): (value: number) => string {
  return (value) => showValue(value, 'money', how.settings);
}

function summary(report: MonthReport, how: MonthHow): string {
  const money = moneyBy(how);
  if (report.channels.length === 0) return `${report.name}: nothing was sold.`;
  const share =
    report.grossMarginRatio === null
      ? ''
      : ` (${showValue(report.grossMarginRatio, 'percent', how.settings)})`;
  return `${report.name}: net sales ${money(report.netSales)} ${report.currency}, cost of sales ${money(report.costOfSales)}, gross margin ${money(report.grossMargin)}${share}.`;
}

function pieces(each: { readonly piecesSold: number; readonly piecesReturned: number }): string {
  const back = each.piecesReturned === 0 ? '' : `, ${each.piecesReturned} came back`;
  return `${count(each.piecesSold, 'piece') || 'no pieces'} sold${back}`;
}

function channelTable(report: MonthReport, how: MonthHow): string {
  const money = moneyBy(how);
  const columns: TableColumn[] = [
    { heading: 'Channel', align: 'left' },
    ...[
      'Pieces',
      `Net, ${report.currency}`,
      'Tax',
      'Fees',
      'Should arrive',
      'Cost of sales',
      'Gross margin',
    ].map((heading): TableColumn => ({ heading, align: 'right' })),
  ];
  const rows = [...report.channels, { ...report.allChannels, channel: 'All' }].map((each) => [
    each.channel,
    each.piecesReturned === 0 ? String(each.piecesSold) : `${each.piecesSold} - ${each.piecesReturned}`,
    ...[each.net, each.tax, each.fees, each.shouldArrive, each.costOfSales, each.grossMargin].map(money),
  ]);
  return table(columns, rows, how.width, how.style);
}

function stockTable(report: MonthReport, how: MonthHow): string {
  const money = moneyBy(how);
  const { materials, finishedGoods } = report;
  const both = [materials, finishedGoods];
  const optional = (heading: string, of: (each: StockMonth) => number) =>
    both.every((each) => of(each) === 0) ? [] : [{ heading, of }];
  const figures: readonly { readonly heading: string; readonly of: (each: StockMonth) => number }[] = [
    { heading: `At first, ${report.currency}`, of: (each) => each.opening },
    ...optional('Changed since closing', (each) => each.changedSinceClosing),
    { heading: 'Bought or made', of: (each) => each.in },
    { heading: 'Used or sold', of: (each) => each.out },
    ...optional('Taken out', (each) => each.taken),
    ...optional('Stocktake difference', (each) => each.counted),
    ...optional('Corrections', (each) => each.corrected),
    { heading: 'At the end', of: (each) => each.closing },
  ];
  const columns: TableColumn[] = [
    { heading: 'Stock', align: 'left' },
    ...figures.map(({ heading }): TableColumn => ({ heading, align: 'right' })),
  ];
  return table(
    columns,
    [
      ['Materials', ...figures.map(({ of }) => money(of(materials)))],
      ['Finished goods', ...figures.map(({ of }) => money(of(finishedGoods)))],
    ],
    how.width,
    how.style,
  );
}

function taxLine(report: MonthReport, how: MonthHow): string {
  const money = moneyBy(how);
  const late = (amount: number): string =>
    amount === 0 ? '' : ` (${money(amount)} of it for closed months)`;
  return `Tax: ${money(report.taxCollected)} collected${late(report.taxCollectedLate)}, ${money(report.taxReclaimed)} paid and reclaimed${late(report.taxReclaimedLate)}, balance ${money(report.taxBalance)} ${report.currency}.`;
}

function journalLine(report: MonthReport, how: MonthHow): string {
  const money = moneyBy(how);
  const lines = count(report.journal.length, 'line') || 'no lines';
  return `Journal: ${lines}, debits ${money(report.debits)}, credits ${money(report.credits)}. Stock is valued by ${report.stockValuedBy}.`;
}

/** What closed months should have posted by now, and this one does for them. */
function lateLine({ lateChanges }: MonthReport, how: MonthHow): string[] {
  if (lateChanges.length === 0) return [];
  const money = moneyBy(how);
  const changes = lateChanges
    .filter(({ change }) => change !== 0)
    .map(
      ({ posting, channel, change }) =>
        `${[posting, channel].filter((each) => each !== null).join(', ')}: ${money(Math.abs(change))} ${change > 0 ? 'debit' : 'credit'}`,
    );
  return [`Posted for changes of closed months: ${changes.join('; ')}.`];
}

function writtenLine(report: MonthReport, how: MonthHow): string {
  const [workbook = '', ...others] = how.written;
  const also = others.length === 0 ? '' : ` Also wrote ${others.join(', ')}.`;
  const closed = how.closes
    ? ' The month is closed: its figures are kept, and told whenever they change.'
    : report.closedOn === null
      ? ` To close the month: ${how.command} month ${how.book} ${report.month} --close`
      : ` The month was closed on ${report.closedOn}, and its figures are the same.`;
  return `Wrote ${workbook}: ${how.sheets} sheets, every total live.${also}${closed}`;
}
