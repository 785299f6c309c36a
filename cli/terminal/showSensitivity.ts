import type { SensitivityLine, SensitivityReport, TriedFigure } from '../../engine/index.ts';
import { showTrimmed } from '../../engine/index.ts';
import { barMarks, sideBar } from './bars.ts';
import { pricesText, resultText, resultTitle } from './resultText.ts';
import type { ShowHow } from './showPrices.ts';
import { table, textWidth, widest, wrap } from './table.ts';

const firstLines = 12;
const shortestBar = 14;

/** Inputs ranked by what they do to a result, with a bar either side of today's value. */
export function showSensitivity(report: SensitivityReport, all: boolean, how: ShowHow): string {
  const lines = all ? report.lines : report.lines.slice(0, firstLines);
  const { result, today } = report;
  const text = (value: number | null): string => resultText(value, result, how.settings);
  const hasOwn = lines.some(({ from }) => from === 'ranges.csv');
  const reached = [today, ...lines.flatMap(({ low, high }) => [low.result ?? today, high.result ?? today])];
  const scale = { from: Math.min(...reached), to: Math.max(...reached), today };
  const columns = [
    { heading: 'Input', align: 'left' as const },
    ...(hasOwn ? [{ heading: 'goes to', align: 'right' as const }] : []),
    { heading: 'down', align: 'right' as const },
    { heading: 'up', align: 'right' as const },
  ];
  const cells = lines.map((line) => [
    line.input,
    ...(hasOwn ? [`${line.low.text} .. ${line.high.text}`] : []),
    text(line.low.result),
    text(line.high.result),
  ]);
  const needed = columns.map(({ heading }, at) =>
    widest(
      cells.map((row) => textWidth(row[at] ?? '')),
      textWidth(heading),
    ),
  );
  const taken = needed.reduce((sum, each) => sum + each + 2, 0);
  const bar = Math.max(shortestBar, how.width - Math.min(taken, how.width - shortestBar - 2));
  const rows = lines.map((line, at) => [
    ...(cells[at] ?? []),
    sideBar(scale, line.low.result, line.high.result, Math.min(bar, 40)),
  ]);
  const parts = [
    ...opening(report, how).flatMap((line) => wrap(line, how.width)),
    '',
    table(
      [...columns, { heading: '', align: 'right' }],
      padded(rows, Math.min(bar, 40)),
      how.width,
      how.style,
    ).trimEnd(),
    '',
    ...closing(report, lines.length, how).flatMap((line) => wrap(line, how.width)),
    `Next: ${how.command} help solve   which figure of an input gives the result you want`,
  ];
  return `${parts.join('\n')}\n`;
}

/** Bars start at their left end, though the last column of a table may not be cut. */
function padded(rows: readonly (readonly string[])[], width: number): string[][] {
  return rows.map((row) => row.map((cell, at) => (at === row.length - 1 ? cell.padEnd(width) : cell)));
}

/** The same in sentences, for screen readers and pipes. */
export function tellSensitivity(report: SensitivityReport, how: ShowHow): string {
  const { result } = report;
  const told = ({ text, result: value }: TriedFigure): string =>
    `${text} gives ${value === null ? 'none' : resultText(value, result, how.settings)}`;
  const line = (each: SensitivityLine): string => `${each.input}: ${told(each.low)}, ${told(each.high)}.`;
  return `${[...opening(report, how), ...report.lines.map(line), ...closing(report, report.lines.length, how)].join('\n')}\n`;
}

function opening(report: SensitivityReport, { settings, style }: ShowHow): string[] {
  const { result, today, lines } = report;
  const [first] = lines;
  const most =
    first === undefined
      ? 'No input moves it.'
      : `${first.input} moves it most: ${resultText(first.low.result, result, settings)} at ${first.low.text}, ${resultText(first.high.result, result, settings)} at ${first.high.text}.`;
  return [`${style.heading(resultTitle(result))}: ${resultText(today, result, settings)} today. ${most}`];
}

function closing(
  { range, lines, still, prices }: SensitivityReport,
  shown: number,
  { settings }: ShowHow,
): string[] {
  const share = `${showTrimmed(range * 100, 2, settings)} %`;
  const own = lines.some(({ from }) => from === 'ranges.csv') ? ', or as far as ranges.csv says' : '';
  const more = lines.length - shown;
  return [
    `Each input goes down and up by ${share} of itself${own}, the others stay as they are. ${barMarks.down} input down, ${barMarks.up} input up, ${barMarks.today} today.`,
    ...(more > 0 ? [`${more} more with less effect: --all shows them.`] : []),
    ...(still.length > 0
      ? [
          `Within that range it does not move with ${still.slice(0, 6).join(', ')}${still.length > 6 ? ` and ${still.length - 6} more` : ''}.`,
        ]
      : []),
    pricesText(prices),
  ];
}
