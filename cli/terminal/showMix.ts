import { type MixReport, type MixRow, showNumber, showTrimmed, showValue } from '../../engine/index.ts';
import type { ShowHow } from './showHow.ts';
import { type TableColumn, table, wrap } from './table.ts';

interface MixHow extends ShowHow {
  /** What lies in stock was a limit. */
  readonly withStock: boolean;
}

/** The best mix: what it brings, what to make, what more of each limit is worth. */
export function showMix(report: MixReport, how: MixHow): string {
  const money = (value: number): string => showValue(value, 'money', how.settings);
  const columns: TableColumn[] = [
    { heading: 'Product', align: 'left' },
    { heading: 'Channel', align: 'left' },
    ...[
      'Expected',
      'Promised to at most',
      'Best',
      'In whole pieces',
      'Contri- bution each',
      'One more sold',
    ].map((heading): TableColumn => ({ heading, align: 'right' })),
  ];
  const rows = made(report).map((row) => [
    row.product,
    row.channel,
    row.expected === null ? '' : pieces(row.expected, how),
    `${pieces(row.atLeast, how)} to ${row.atMost === null ? 'any' : pieces(row.atMost, how)}`,
    pieces(row.best, how),
    row.bestWhole === null ? 'none' : showNumber(row.bestWhole, 0, how.settings),
    money(row.contributionEach),
    row.worthOfOneMoreSold > 0 ? money(row.worthOfOneMoreSold) : '-',
  ]);
  const lines = (texts: readonly string[]): string =>
    texts.flatMap((text) => wrap(text, how.width)).join('\n');
  const parts = [
    lines(summary(report, how)),
    rows.length === 0 ? '' : table(columns, rows, how.width, how.style),
    lines([...limits(report, how), ...leftOut(report, how), ...promises(report, how)]),
    `Next: ${how.command} breakeven ${how.book}   how much of it pays the overhead\n      ${how.command} cut ${how.book} "product=quantity"   what to cut for it`,
  ];
  return `${parts
    .map((part) => part.trimEnd())
    .filter((part) => part !== '')
    .join('\n\n')}\n`;
}

/** The same in sentences. */
export function tellMix(report: MixReport, how: MixHow): string {
  const rows = made(report).map(
    (row) =>
      `${row.product} (${row.channel}): ${pieces(row.best, how)}, in whole pieces ${row.bestWhole ?? 'none'}${row.worthOfOneMoreSold > 0 ? `; one more sold is worth ${showValue(row.worthOfOneMoreSold, 'money', how.settings)}` : ''}.`,
  );
  const all = [
    ...summary(report, how),
    ...rows,
    ...limits(report, how),
    ...leftOut(report, how),
    ...promises(report, how),
  ];
  return `${all.join('\n')}\n`;
}

function made(report: MixReport): MixRow[] {
  return report.rows.filter((row) => row.best > 0 || (row.bestWhole ?? 0) > 0);
}

function summary(report: MixReport, how: MixHow): string[] {
  const { best, bestWhole, expected, currency } = report;
  const money = (value: number): string => `${showValue(value, 'money', how.settings)} ${currency}`;
  const hours = (value: number): string => showNumber(value, 1, how.settings);
  const there = report.limits[0]?.available ?? 0;
  const shown = bestWhole ?? best;
  const profit =
    shown.profit < 0 ? `a loss of ${money(Math.abs(shown.profit))}` : `a profit of ${money(shown.profit)}`;
  return [
    `The best of ${hours(there)} bench hours contributes ${money(shown.contribution)} a month: ${profit} after the overhead${bestWhole === null ? '' : ', in whole pieces'}.`,
    bestWhole === null
      ? 'Promises and limits are fractions of a piece that leave no mix in whole pieces.'
      : `With fractions of a piece ${money(best.contribution)}.${bestWhole.proven ? '' : ' In whole pieces there may be better: the search was stopped.'}`,
    expected === null
      ? ''
      : `The expected sales contribute ${money(expected.contribution)} in ${hours(expected.benchHours)} bench hours.`,
  ].filter((line) => line !== '');
}

function limits(report: MixReport, how: MixHow): string[] {
  const money = (value: number): string => `${showValue(value, 'money', how.settings)} ${report.currency}`;
  const amount = (value: number): string => showTrimmed(value, 2, how.settings);
  const told = report.limits.flatMap((limit): string[] => {
    const isHours = limit.kind === 'bench hours';
    const what = isHours
      ? 'bench hour'
      : limit.unit === 'pieces'
        ? limit.name
        : `${limit.unit} of ${limit.name}`;
    if (limit.worthEach > 0) {
      const over = isHours ? ', over and above its wage' : '';
      return [
        `One more ${what} is worth ${money(limit.worthOfOneMore)}${over}.${limit.worthOfOneMore < limit.worthEach * 0.99 ? ` (The first part of it ${money(limit.worthEach)} for one; then something else is short.)` : ''}`,
      ];
    }
    return isHours
      ? [
          `Bench hours are not short: ${amount(limit.taken)} of ${amount(limit.available)} are used, so one more is worth nothing.`,
        ]
      : [];
  });
  const listed = how.withStock
    ? report.limits.filter(({ kind }) => kind === 'material').map(({ name }) => name)
    : [];
  const stock = how.withStock
    ? listed.length === 0
      ? 'No material of these pieces has a row in stock.csv, so stock limits nothing.'
      : `Limited by stock: ${listed.slice(0, 8).join(', ')}${listed.length > 8 ? `, and ${listed.length - 8} more` : ''}. What has no row in stock.csv counts as bought when needed.`
    : '';
  return [...told, ...(stock === '' ? [] : [stock])];
}

function leftOut(report: MixReport, how: MixHow): string[] {
  const out = report.rows
    .filter((row) => row.best === 0 && (row.bestWhole ?? 0) === 0)
    .sort((one, other) => other.reducedWorth - one.reducedWorth);
  if (out.length === 0) return [];
  const named = out
    .slice(0, 6)
    .map(
      (row) =>
        `${row.product} (${row.channel}) ${showValue(Math.max(0, -row.reducedWorth), 'money', how.settings)}`,
    );
  const more = out.length > 6 ? `, and ${out.length - 6} more` : '';
  return [`Left out, with what each piece would have to contribute more: ${named.join(', ')}${more}.`];
}

function promises(report: MixReport, how: MixHow): string[] {
  const dear = report.rows.filter((row) => row.worthOfOneLessPromised > 0);
  if (dear.length === 0) return [];
  const named = dear
    .slice(0, 6)
    .map(
      (row) =>
        `${row.product} (${row.channel}) ${showValue(row.worthOfOneLessPromised, 'money', how.settings)}`,
    );
  const more = dear.length > 6 ? `, and ${dear.length - 6} more` : '';
  return [`Made only because promised; each costs so much of the contribution: ${named.join(', ')}${more}.`];
}

function pieces(value: number, how: MixHow): string {
  return showTrimmed(value, 2, how.settings);
}
