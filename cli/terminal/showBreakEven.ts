import {
  type BreakEvenReport,
  type MixBreakEven,
  type PairBreakEven,
  showNumber,
  showTrimmed,
  showValue,
} from '../../engine/index.ts';
import type { ShowHow } from './showHow.ts';
import { type TableColumn, table, wrap } from './table.ts';

interface BreakEvenHow extends ShowHow {
  /** One product or channel was asked for. */
  readonly isChosen: boolean;
}

/** Stands after a number of pieces that takes more bench hours than the month has. */
const beyondHoursMark = '>';

/** The overhead and what pays it: the expected sales together, then each product and channel alone. */
export function showBreakEven(report: BreakEvenReport, how: BreakEvenHow): string {
  const lines = (text: string): string => wrap(text, how.width).join('\n');
  const parts = [summary(report, how).map(lines).join('\n')];
  if (report.mix !== null && !how.isChosen) parts.push(mixTable(report, report.mix, how));
  parts.push(`Alone: pieces a month, if nothing else were sold.\n${pairTable(report, how)}`);
  parts.push(
    [...legend(report), taxCaution(report)]
      .filter((line) => line !== '')
      .map(lines)
      .join('\n'),
  );
  parts.push(next(report, how));
  return `${parts
    .map((part) => part.trimEnd())
    .filter((part) => part !== '')
    .join('\n\n')}\n`;
}

/** The same in sentences, a line a product and channel. */
export function tellBreakEven(report: BreakEvenReport, how: BreakEvenHow): string {
  const { settings } = how;
  const money = (value: number): string => showValue(value, 'money', settings);
  const pairs = report.pairs.map((pair) => {
    const { contributionEach, breakEven, forWantedProfit } = pair;
    const named = `${pair.product} (${pair.channel}): contributes ${money(contributionEach)} each`;
    if (breakEven.piecesWhole === null) return `${named}; no number of pieces pays the overhead.`;
    const told = (each: PairBreakEven['breakEven']): string =>
      `${whole(each, how)} pieces, takings ${money(each.takings ?? 0)}, ${hours(each.benchHours, how)} bench hours${each.withinHours === false ? ', more than the month has' : ''}`;
    const wanted = report.wantedProfitBeforeTax > 0 ? `; for the profit wanted ${told(forWantedProfit)}` : '';
    return `${named}; break-even at ${told(breakEven)}${wanted}.`;
  });
  const rows = how.isChosen ? [] : (report.mix?.rows ?? []);
  const mix = rows.map(
    (row) =>
      `Expected ${row.product} (${row.channel}): ${count(row.pieces, how)} pieces, contribution ${money(row.contribution)}; at break-even ${count(row.breakEvenPieces, how)}.`,
  );
  return `${[`${summary(report, how).join(' ')} Amounts in ${report.currency}.`, ...mix, ...pairs, taxCaution(report)].filter((line) => line !== '').join('\n')}\n`;
}

function summary(report: BreakEvenReport, how: BreakEvenHow): string[] {
  const { mix, currency } = report;
  const money = (value: number): string => `${showValue(value, 'money', how.settings)} ${currency}`;
  const share = (value: number): string => showValue(value, 'percent', how.settings);
  const first = `Overhead ${money(report.overheadPerMonth)} a month`;
  const wanted =
    report.wantedProfitPerMonth > 0
      ? `Profit wanted ${money(report.wantedProfitPerMonth)} a month${report.profitTaxRatio > 0 ? `; before ${share(report.profitTaxRatio)} profit tax ${money(report.wantedProfitBeforeTax)}` : ''}.`
      : '';
  if (mix === null || how.isChosen) return [`${first}.`, wanted].filter((line) => line !== '');
  const profit =
    mix.profit < 0 ? `a loss of ${money(Math.abs(mix.profit))}` : `a profit of ${money(mix.profit)}`;
  const { breakEven, forWantedProfit: goal } = mix;
  if (breakEven.share === null)
    return [
      `${first}; the expected sales contribute ${money(mix.contribution)}, so no number of them pays it.`,
      wanted,
    ].filter((line) => line !== '');
  return [
    `${first}; the expected sales pay it at ${share(breakEven.share)} of them and leave ${profit}.`,
    `Break-even: ${count(breakEven.pieces, how)} pieces, takings ${money(breakEven.takings ?? 0)}, ${hours(breakEven.benchHours, how)} bench hours. Margin of safety: ${money(mix.marginOfSafety ?? 0)}, ${share(mix.marginOfSafetyRatio ?? 0)} of the takings.`,
    wanted === ''
      ? ''
      : `${wanted} It takes ${share(goal.share ?? 0)} of the expected sales: ${count(goal.pieces, how)} pieces, takings ${money(goal.takings ?? 0)}, ${hours(goal.benchHours, how)} of ${hours(report.benchHoursPerMonth, how)} bench hours.`,
  ].filter((line) => line !== '');
}

function mixTable(report: BreakEvenReport, mix: MixBreakEven, how: BreakEvenHow): string {
  const money = (value: number): string => showValue(value, 'money', how.settings);
  const columns: TableColumn[] = [
    { heading: 'Product', align: 'left' },
    { heading: 'Channel', align: 'left' },
    ...[
      'Expected a month',
      `Takings, ${report.currency}`,
      'Contri- bution',
      'Bench hours',
      'At break- even',
      'For the profit wanted',
    ].map((heading): TableColumn => ({ heading, align: 'right' })),
  ];
  const rows = mix.rows.map((row) => [
    row.product,
    row.channel,
    count(row.pieces, how),
    money(row.takings),
    money(row.contribution),
    hours(row.benchHours, how),
    count(row.breakEvenPieces, how),
    count(row.wantedPieces, how),
  ]);
  const all = [
    'All',
    '',
    count(mix.pieces, how),
    money(mix.takings),
    money(mix.contribution),
    hours(mix.benchHours, how),
    count(mix.breakEven.pieces, how),
    count(mix.forWantedProfit.pieces, how),
  ];
  return table(columns, [...rows, all], how.width, how.style);
}

function pairTable(report: BreakEvenReport, how: BreakEvenHow): string {
  return how.isChosen ? chosenTable(report, how) : crossTable(report, how);
}

/** Each product and channel that was asked for, in full. */
function chosenTable(report: BreakEvenReport, how: BreakEvenHow): string {
  const money = (value: number | null): string =>
    value === null ? 'none' : showValue(value, 'money', how.settings);
  const wanted = report.wantedProfitBeforeTax > 0;
  const columns: TableColumn[] = [
    { heading: 'Product', align: 'left' },
    { heading: 'Channel', align: 'left' },
    ...[
      'Contri- bution each',
      'Of the net price',
      'Pieces',
      `Takings, ${report.currency}`,
      'Bench hours',
      ...(wanted ? ['Pieces for the profit'] : []),
    ].map((heading): TableColumn => ({ heading, align: 'right' })),
  ];
  const rows = report.pairs.map((pair) => [
    pair.product,
    pair.channel,
    money(pair.contributionEach),
    pair.contributionRatio === null ? 'none' : showValue(pair.contributionRatio, 'percent', how.settings),
    marked(pair.breakEven, report, how),
    money(pair.breakEven.takings),
    hours(pair.breakEven.benchHours, how),
    ...(wanted ? [marked(pair.forWantedProfit, report, how)] : []),
  ]);
  return table(columns, rows, how.width, how.style);
}

/** A row a product, with the whole pieces of each channel; as many channels side by side as the width takes. */
function crossTable(report: BreakEvenReport, how: BreakEvenHow): string {
  const channels = [...new Set(report.pairs.map(({ channel }) => channel))];
  const products = [...new Set(report.pairs.map(({ product }) => product))];
  const pairs = new Map(report.pairs.map((pair) => [`${pair.product}|${pair.channel}`, pair]));
  const wanted = report.wantedProfitBeforeTax > 0;
  const most = Math.max(1, Math.floor((how.width - 26) / (wanted ? 21 : 11)));
  const tables: string[] = [];
  for (let at = 0; at < channels.length; at += most) {
    const shown = channels.slice(at, at + most);
    const columns: TableColumn[] = [
      { heading: 'Product', align: 'left' },
      ...shown.flatMap((channel): TableColumn[] => [
        { heading: `${channel}: break-even`, align: 'right' },
        ...(wanted ? [{ heading: 'for the profit', align: 'right' } as const] : []),
      ]),
    ];
    const rows = products.map((product) => [
      product,
      ...shown.flatMap((channel) => {
        const pair = pairs.get(`${product}|${channel}`);
        if (pair === undefined) return wanted ? ['', ''] : [''];
        return [
          marked(pair.breakEven, report, how),
          ...(wanted ? [marked(pair.forWantedProfit, report, how)] : []),
        ];
      }),
    ]);
    tables.push(table(columns, rows, how.width, how.style));
  }
  return tables.join('\n');
}

type Alone = PairBreakEven['breakEven'];

function whole({ piecesWhole }: Alone, how: BreakEvenHow): string {
  return piecesWhole === null ? 'none' : showNumber(piecesWhole, 0, how.settings);
}

/** Whole pieces with a mark where the hours do not suffice; as wide without, so that figures stay in line. */
function marked(each: Alone, report: BreakEvenReport, how: BreakEvenHow): string {
  const pad = isAnyBeyond(report) ? ' ' : '';
  return `${whole(each, how)}${each.withinHours === false ? beyondHoursMark : pad}`;
}

function isAnyBeyond(report: BreakEvenReport): boolean {
  return report.pairs.some(
    (pair) => pair.breakEven.withinHours === false || pair.forWantedProfit.withinHours === false,
  );
}

function legend(report: BreakEvenReport): string[] {
  return [
    isAnyBeyond(report) ? `${beyondHoursMark} takes more bench hours than the month has.` : '',
    report.pairs.some(({ breakEven }) => breakEven.pieces === null)
      ? 'none: a piece contributes nothing, so no number of them pays the overhead.'
      : '',
    'Contribution: net price less fees, postage, materials and labour by the hour.',
  ];
}

function taxCaution(report: BreakEvenReport): string {
  return report.profitTaxRatio > 0 ? 'Tax on profit differs by place; ask a licensed professional.' : '';
}

function next(report: BreakEvenReport, how: BreakEvenHow): string {
  const [pair] = report.pairs;
  const one = `${how.command} breakeven ${how.book} --channel ${pair?.channel ?? ''}   with takings and bench hours`;
  const mix = `${how.command} mix ${how.book}${report.mix === null ? ' --all' : ''}   what to make of the bench hours there are`;
  return how.isChosen ? `Next: ${mix}` : `Next: ${one}\n      ${mix}`;
}

function count(value: number | null, how: BreakEvenHow): string {
  return value === null ? 'none' : showTrimmed(value, 1, how.settings);
}

function hours(value: number | null, how: BreakEvenHow): string {
  return value === null ? 'none' : showNumber(value, 1, how.settings);
}
