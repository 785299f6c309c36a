import { type StockItemReport, type StockReport, type StockRoll, showValue } from '../../engine/index.ts';
import { showBelow, showCounted, showUsed } from './showCounted.ts';
import { amount, money, right, type StockHow } from './stockFigures.ts';
import { type TableColumn, type TableRow, table, wrap } from './table.ts';

const kinds = [
  { kind: 'material', title: 'Materials' },
  { kind: 'product', title: 'Finished pieces' },
] as const;

/** Stock as text: its worth first, then what was asked, then what is to be looked at. */
export function showStock(report: StockReport, how: StockHow): string {
  const lines = (texts: readonly string[]): string =>
    texts.flatMap((text) => wrap(text, how.width)).join('\n');
  const parts = [
    how.view === 'movements' ? '' : lines([summary(report, how)]),
    ...(how.view === 'on hand'
      ? [onHand(report, how)]
      : how.view === 'roll'
        ? rolls(report, how)
        : movements(report, how)),
    how.view === 'movements' ? '' : sums(report, how),
    showUsed(report, how),
    showCounted(report, how),
    lines(showBelow(report, how)),
    how.view === 'movements' ? '' : next(report, how),
  ];
  return `${parts
    .map((part) => part.trimEnd())
    .filter((part) => part !== '')
    .join('\n\n')}\n`;
}

function wayText({ method, timing, period }: StockReport): string {
  const way = method === 'average' ? 'weighted average' : method.replace('first in first', 'first in, first');
  return `${way}, ${timing}${timing === 'periodic' ? ` by the ${period}` : ''}`;
}

function summary(report: StockReport, how: StockHow): string {
  const { totals, currency, to } = report;
  return `Stock at the end of ${to}: ${money(totals.closingValue ?? 0, how)} ${currency}, of it materials ${money(totals.closingMaterials ?? 0, how)} and finished pieces ${money(totals.closingProducts ?? 0, how)} (${wayText(report)}).`;
}

function onHand(report: StockReport, how: StockHow): string {
  const columns: TableColumn[] = [
    { heading: 'Item', align: 'left' },
    right('On hand'),
    { heading: 'Counted in', align: 'left' },
    right(`Value, ${report.currency}`),
    right('Value of one'),
    right("Today's cost of one"),
  ];
  const rows = grouped(report, (each) => [
    each.item,
    amount(each.quantity.closing, how, each.kind),
    each.unit,
    money(each.value.closing, how),
    each.unitCost === null ? 'none' : showValue(each.unitCost, 'money_per_unit', how.settings),
    showValue(each.standardUnitCost, 'money_per_unit', how.settings),
  ]);
  return table(columns, rows, how.width, how.style);
}

function grouped(report: StockReport, row: (each: StockItemReport) => readonly string[]): TableRow[] {
  return kinds.flatMap(({ kind, title }): TableRow[] => {
    const own = report.items.filter((each) => each.kind === kind);
    return own.length === 0 ? [] : [{ group: title }, ...own.map(row)];
  });
}

/** What came and went, by count and by value; materials are bought and go into pieces, pieces are made and sold. */
function rolls(report: StockReport, how: StockHow): string[] {
  return kinds.flatMap(({ kind, title }) => {
    const own = report.items.filter((each) => each.kind === kind);
    if (own.length === 0) return [];
    const isMaterial = kind === 'material';
    const cells = (
      roll: StockRoll,
      show: (value: number, how: StockHow, of: typeof kind) => string,
    ): string[] =>
      [
        roll.opening,
        isMaterial ? roll.bought : roll.made,
        isMaterial ? roll.used : roll.sold,
        roll.other,
        roll.closing,
      ].map((value) => show(value, how, kind));
    const columns = (what: string): TableColumn[] => [
      { heading: `${title}, ${what}`, align: 'left' },
      ...[
        'At first',
        isMaterial ? 'Bought' : 'Made',
        isMaterial ? 'Into pieces' : 'Sold',
        'Other',
        'At the end',
      ].map(right),
    ];
    return [
      table(
        columns('by count'),
        own.map((each) => [each.item, ...cells(each.quantity, amount)]),
        how.width,
        how.style,
      ),
      table(
        columns(`in ${report.currency}`),
        own.map((each) => [each.item, ...cells(each.value, money)]),
        how.width,
        how.style,
      ),
    ];
  });
}

function movements(report: StockReport, how: StockHow): string[] {
  const [item] = report.items;
  if (item === undefined) return [];
  const columns: TableColumn[] = [
    { heading: 'Date', align: 'left' },
    { heading: 'What', align: 'left' },
    right(item.unit),
    right(report.currency),
    { heading: 'Stands in', align: 'left' },
    { heading: 'For or from', align: 'left' },
  ];
  const rows = report.moves.map((move) => [
    move.date,
    move.what,
    amount(move.quantity, how, item.kind),
    money(move.value, how),
    move.source,
    move.partner,
  ]);
  const balance = (name: string, of: 'opening' | 'closing', date: string): string[] => [
    date,
    name,
    amount(item.quantity[of], how, item.kind),
    money(item.value[of], how),
    '',
    '',
  ];
  return [
    `${item.item}: ${amount(item.quantity.closing, how, item.kind)} ${item.unit} worth ${money(item.value.closing, how)} ${report.currency} at the end of ${report.to} (${wayText(report)}).`,
    table(
      columns,
      [balance('at first', 'opening', report.from), ...rows, balance('at the end', 'closing', report.to)],
      how.width,
      how.style,
    ),
  ];
}

/** From the stock at first to that at the end, and what sales left over their cost. */
function sums(report: StockReport, how: StockHow): string {
  const { totals } = report;
  const line = (name: string, value: number | undefined, sign: string): string[][] =>
    value === undefined || value === 0 ? [] : [[`${sign} ${name}`.trim(), money(value, how)]];
  const rows = [
    ['stock at first', money(totals.openingValue ?? 0, how)],
    ...line('bought, less given back', totals.boughtValue, '+'),
    ...line('labour in what was made', totals.labourValue, '+'),
    ...line('overhead in what was made', totals.overheadValue, '+'),
    ...line('cost of sales', totals.costOfSales, '-'),
    ...line('waste beyond normal', totals.wasteValue, '-'),
    ...line('given away or kept', totals.givenValue, '-'),
    ...line('missing when counted', totals.countedValue, '-'),
    ...line('corrected and written down', totals.correctedValue, '-'),
    ['= stock at the end', money(totals.closingValue ?? 0, how)],
  ];
  const columns: TableColumn[] = [
    { heading: `${report.from} to ${report.to}`, align: 'left' },
    right(report.currency),
  ];
  const sales = `Sales before tax ${money(totals.netSales ?? 0, how)}, cost of sales ${money(totals.costOfSales ?? 0, how)}, gross profit ${money(totals.grossProfit ?? 0, how)} ${report.currency}.`;
  const lost = totals.returnsLoss ?? 0;
  const returned =
    lost === 0
      ? ''
      : `Goods given back had cost ${money(lost, how)} more than was paid back; that is an expense beside stock.`;
  const texts = [sales, returned].filter((text) => text !== '').flatMap((text) => wrap(text, how.width));
  return `${table(columns, rows, how.width, how.style)}\n${texts.join('\n')}`;
}

function next(report: StockReport, how: StockHow): string {
  const [item] = report.items;
  return `Next: ${how.command} stock ${how.book} --item "${item?.item ?? ''}"   every movement of one item
      ${how.command} stock ${how.book} --from ${report.from} --to ${report.to}   what came and went
      ${how.command} variance ${how.book}   where cost left what was planned`;
}
