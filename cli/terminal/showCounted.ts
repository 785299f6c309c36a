import { type StockReport, showValue } from '../../engine/index.ts';
import { amount, kindOf, money, right, type StockHow } from './stockFigures.ts';
import { type TableColumn, table } from './table.ts';

/** Materials whose use was measured: what pieces should have taken, and what they did. */
export function showUsed(report: StockReport, how: StockHow): string {
  const measured = report.use.filter(({ isMeasured }) => isMeasured);
  if (measured.length === 0) return '';
  const columns: TableColumn[] = [
    { heading: 'Used for pieces', align: 'left' },
    { heading: 'For', align: 'left' },
    right('Should take'),
    right('Was taken'),
    right('Beyond'),
    right('Of it'),
  ];
  const rows = measured.map((each) => [
    each.material,
    each.product ?? 'all',
    amount(each.normal, how),
    amount(each.taken, how),
    amount(each.beyond, how),
    each.beyondRatio === null ? 'none' : showValue(each.beyondRatio, 'percent', how.settings),
  ]);
  return table(columns, rows, how.width, how.style);
}

export function showCounted(report: StockReport, how: StockHow): string {
  if (report.counts.length === 0) return '';
  const columns: TableColumn[] = [
    { heading: 'Counted', align: 'left' },
    { heading: 'Item', align: 'left' },
    right('Expected'),
    right('Counted'),
    right('More or less'),
    right(report.currency),
  ];
  const rows = report.counts.map((each) => [
    each.date,
    each.item,
    amount(each.expected, how, kindOf(report, each.item)),
    amount(each.counted, how, kindOf(report, each.item)),
    amount(each.difference, how, kindOf(report, each.item)),
    money(each.value, how),
  ]);
  return table(columns, rows, how.width, how.style);
}

/** Where more left than there was; one line an item, with its worst day. */
export function showBelow(report: StockReport, how: StockHow): string[] {
  const worst = new Map<string, StockReport['shortages'][number]>();
  for (const each of report.shortages)
    if (each.below > (worst.get(each.item)?.below ?? 0)) worst.set(each.item, each);
  if (worst.size === 0) return [];
  return [
    how.style.watch(
      'More left than there was. It is valued at the last known cost until what comes in corrects it.',
    ),
    ...[...worst.values()].map(
      (each) =>
        `${each.item}: ${amount(-each.below, how, kindOf(report, each.item))} on ${each.date} (${each.source}).`,
    ),
    'Look for a purchase, a row of made.csv or an opening balance that is missing.',
  ];
}
