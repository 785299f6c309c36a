import { type RiskLine, type RiskReport, showNumber, showTrimmed } from '../../engine/index.ts';
import { foldRows } from './foldRows.ts';
import { capital, pricesText, resultText } from './resultText.ts';
import type { ShowHow } from './showHow.ts';
import { type TableColumn, type TableRow, table, wrap } from './table.ts';

const narrowestName = 14;

/** How likely each result is missed, how far it spreads, and what drives it. */
export function showRisk(report: RiskReport, how: ShowHow): string {
  const columns: TableColumn[] = [
    { heading: 'Result', align: 'left' },
    ...['Wanted', 'Missed', '5 %', 'Half', '95 %'].map((heading) => ({ heading, align: 'right' as const })),
    { heading: 'Driven by', align: 'left' },
  ];
  const rows = foldRows(columns, rowsOf(report, how), how.width, narrowestName);
  const parts = [
    ...opening(report, how).flatMap((line) => wrap(line, how.width)),
    '',
    table(columns, rows, how.width, how.style).trimEnd(),
    '',
    ...closing(report, how).flatMap((line) => wrap(line, how.width)),
  ];
  return `${parts.join('\n')}\n`;
}

/** The same in sentences. */
export function tellRisk(report: RiskReport, how: ShowHow): string {
  const told = (line: RiskLine): string => {
    const text = (value: number): string => resultText(value, line.result, how.settings);
    const { p5, p25, p50, p75, p95 } = line.percentiles;
    const chance =
      line.missed === null || line.wanted === null
        ? ''
        : `missed (${line.worse} than ${text(line.wanted)}) in ${share(line.missed, how)}, give or take ${share(line.missedError ?? 0, how)}; `;
    return `${capital(line.result.name)}: ${chance}mean ${text(line.mean)}; one in twenty under ${text(p5)}, a quarter under ${text(p25)}, half under ${text(p50)}, three quarters under ${text(p75)}, all but one in twenty under ${text(p95)}${drivers(line, how, 3) === '' ? '' : `; driven by ${drivers(line, how, 3)}`}.`;
  };
  return `${[...opening(report, how), ...report.lines.map(told), ...closing(report, how)].join('\n')}\n`;
}

function rowsOf({ lines }: RiskReport, how: ShowHow): TableRow[] {
  const groups = new Map<string, TableRow[]>();
  for (const line of lines) {
    const { result } = line;
    const text = (value: number | null): string => resultText(value, result, how.settings);
    const { p5, p50, p95 } = line.percentiles;
    // Many margins read better by channel, with the product alone in each row.
    const isMargin = lines.length > 3 && result.column === 'margin' && result.product !== undefined;
    const group = isMargin ? `Margin at ${result.channel}` : '';
    const row = [
      isMargin ? (result.product ?? '') : capital(result.name),
      text(line.wanted),
      line.missed === null ? '-' : share(line.missed, how),
      text(p5),
      text(p50),
      text(p95),
      drivers(line, how, 1),
    ];
    groups.set(group, [...(groups.get(group) ?? []), row]);
  }
  const alone = groups.get('') ?? [];
  return [
    ...alone,
    ...[...groups].flatMap(([group, rows]): TableRow[] => (group === '' ? [] : [{ group }, ...rows])),
  ];
}

function share(ratio: number, { settings }: ShowHow): string {
  // No draw and all of them are said as exactly that.
  if (ratio === 0 || ratio === 1) return `${ratio * 100} %`;
  return `${showNumber(ratio * 100, 1, settings)} %`;
}

function drivers({ drivers: all }: RiskLine, how: ShowHow, most: number): string {
  // What would read 0 % drives nothing.
  return all
    .filter((each) => each.share >= 0.005)
    .slice(0, most)
    .map((each) => `${each.input} ${showTrimmed(each.share * 100, 0, how.settings)} %`)
    .join(', ');
}

function opening({ lines, inputs, draws }: RiskReport, how: ShowHow): string[] {
  const named = `${inputs.length} uncertain ${inputs.length === 1 ? 'input' : 'inputs'}, ${showNumber(draws, 0, how.settings)} draws.`;
  const judged = lines.filter(({ missed }) => missed !== null);
  const [worst, second] = [...judged].sort((one, other) => (other.missed ?? 0) - (one.missed ?? 0));
  if (worst === undefined) return [named];
  const often = share(worst.missed ?? 0, how);
  if (second === undefined)
    return [
      `${named} ${capital(worst.result.name)} is ${worst.worse} than ${resultText(worst.wanted, worst.result, how.settings)} in ${often} of them.`,
    ];
  if ((worst.missed ?? 0) === 0) return [`${named} No result is missed in any of them.`];
  const many = judged.filter(({ missed }) => (missed ?? 0) > 0.5).length;
  const summary =
    many === 0
      ? 'Every result is met more often than missed'
      : `${many} of ${judged.length} results ${many === 1 ? 'is' : 'are'} missed more often than met`;
  return [`${named} ${summary}. Missed most often: ${worst.result.name}, in ${often}.`];
}

function closing({ lines, inputs, stopped, seed, prices, draws }: RiskReport, how: ShowHow): string[] {
  const error = lines.reduce((most, each) => Math.max(most, each.missedError ?? 0), 0);
  const failed = lines.filter((each) => each.failed > 0);
  return [
    `Missed: share of the draws in which the result is ${wrongWay(lines)} than wanted, give or take ${share(error, how)} at most (one standard error of ${showNumber(draws, 0, how.settings)} draws). One draw in twenty is under the 5 % figure, one over the 95 % figure. Driven by: the input whose order among the draws goes most with the result’s, with its share.`,
    `Drawn: ${inputs.map(({ input }) => input).join(', ')}. One draw moves all cells of an input together; the inputs are independent of each other. Seed ${seed} gives these figures again.`,
    ...stopped.map(
      (each) =>
        `${capital(each.input)}: ${each.draws} draws went beyond what its column allows, and stopped there.`,
    ),
    ...failed.map(
      (each) =>
        `${capital(each.result.name)}: in ${each.failed} draws fees and margin left no room for a price; these count as missed.`,
    ),
    pricesText(prices),
  ];
}

/** Of an earning less is worse, of a cost more. */
function wrongWay(lines: RiskReport['lines']): string {
  const ways = new Set(lines.map(({ worse }) => worse));
  return ways.size === 1 ? ([...ways][0] ?? 'less') : 'less (a cost: more)';
}
