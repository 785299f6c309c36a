import type { SensitivityLine, SensitivityReport, TriedFigure } from '../../engine/index.ts';
import { showTrimmed } from '../../engine/index.ts';
import { barMarks, sideBar } from './bars.ts';
import { foldRows } from './foldRows.ts';
import { capital, pricesText, resultText, resultTitle } from './resultText.ts';
import type { ShowHow } from './showHow.ts';
import { table, textWidth, widest, wrap } from './table.ts';

const firstLines = 12;
const [shortestBar, longestBar] = [14, 40];
const narrowestName = 18;
const mostStill = 6;

/** Inputs ranked by what they do to a result, with a bar either side of today's value. */
export function showSensitivity(report: SensitivityReport, all: boolean, how: ShowHow): string {
  const lines = linesShown(report, all);
  if (lines.length === 0) return tellSensitivity(report, all, how);
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
  const folded = foldRows(columns, cells, how.width - shortestBar - 2, narrowestName);
  const needed = columns.map(({ heading }, at) =>
    widest(
      folded.map((row) => ('group' in row ? 0 : textWidth(row[at] ?? ''))),
      textWidth(heading),
    ),
  );
  const taken = needed.reduce((sum, each) => sum + each + 2, 0);
  const bar = Math.min(longestBar, Math.max(shortestBar, how.width - taken));
  // A bar stands beside the first line of its input.
  const bars = lines.map(({ low, high }) => sideBar(scale, low.result, high.result, bar));
  const rows = folded.map((row) => {
    const texts = 'group' in row ? [] : row;
    const isFirst = texts.at(-1) !== '';
    return [...texts, ((isFirst ? bars.shift() : undefined) ?? '').padEnd(bar)];
  });
  const parts = [
    ...opening(report, how).flatMap((line) => wrap(line, how.width)),
    '',
    table([...columns, { heading: '', align: 'right' }], rows, how.width, how.style).trimEnd(),
    '',
    `${barMarks.down} input down, ${barMarks.up} input up, ${barMarks.today} today.`,
    ...closing(report, lines, how).flatMap((line) => wrap(line, how.width)),
    `Next: ${how.command} help solve   which figure of an input gives the result you want`,
  ];
  return `${parts.join('\n')}\n`;
}

/** The same in sentences, for screen readers and pipes. */
export function tellSensitivity(report: SensitivityReport, all: boolean, how: ShowHow): string {
  const { result } = report;
  const shown = linesShown(report, all);
  const told = ({ text, result: value }: TriedFigure): string =>
    value === null
      ? `at ${text} it cannot be calculated`
      : `${resultText(value, result, how.settings)} at ${text}`;
  const line = (each: SensitivityLine): string =>
    `${capital(each.input)}: ${told(each.low)}, ${told(each.high)}.`;
  const parts = [...opening(report, how), ...shown.map(line), ...closing(report, shown, how)];
  return `${parts.join('\n')}\n`;
}

function linesShown({ lines }: SensitivityReport, all: boolean): readonly SensitivityLine[] {
  return all ? lines : lines.slice(0, firstLines);
}

function opening(report: SensitivityReport, { settings, style }: ShowHow): string[] {
  const { result, today, lines } = report;
  const [first] = lines;
  const told = ({ text, result: value }: TriedFigure): string =>
    `${resultText(value, result, settings)} at ${text}`;
  const most =
    first === undefined
      ? 'No input moves it.'
      : `It moves most with ${first.input}: ${told(first.low)}, ${told(first.high)}.`;
  return [`${style.heading(resultTitle(result))}: ${resultText(today, result, settings)} today. ${most}`];
}

function closing(
  { range, lines, still, prices }: SensitivityReport,
  shown: readonly SensitivityLine[],
  { settings }: ShowHow,
): string[] {
  const share = `${showTrimmed(range * 100, 2, settings)} %`;
  const own = shown.filter(({ from }) => from === 'ranges.csv').length;
  const far =
    own === 0
      ? `by ${share} of itself`
      : own === shown.length
        ? 'as far as ranges.csv says'
        : `by ${share} of itself, or as far as ranges.csv says`;
  const more = lines.length - shown.length;
  const names = still.slice(0, mostStill).join(', ');
  const others = still.length - mostStill;
  return [
    `Each input goes down and up ${far}, the others stay as they are.`,
    ...(more > 0 ? [`${more} more with less effect: --all shows them.`] : []),
    ...(still.length > 0
      ? [`Within that range it does not move with ${names}${others > 0 ? ` and ${others} more` : ''}.`]
      : []),
    pricesText(prices),
  ];
}
