import { showTrimmed, showValue } from '../../../sheets/showValue.ts';
import type { SensitivityLine, TriedFigure } from '../../../whatif/sweeps/sensitivity.ts';
import { escaped } from '../../escaped.ts';
import { shorten } from '../../shorten.ts';
import type { BookReport } from '../bookReport.ts';
import { chartFigure } from '../chartFigure.ts';
import { barsChart, type SpanBar } from '../charts/barsChart.ts';
import { figures, words } from '../dataTable.ts';
import { key } from '../key.ts';
import { capital, counted } from '../shown.ts';
import type { Section } from './section.ts';

/** Inputs in the picture; those after them move it too little to be told apart there. */
const mostLines = 12;

/** What each input does to a result, down and up by itself, the one that does most on top. */
export function sensitivity({ sensitivity: ranked, settings }: BookReport): Section | null {
  const [most] = ranked?.lines ?? [];
  if (ranked === null || most === undefined) return null;
  const { result, today, range } = ranked;
  const lines = ranked.lines.slice(0, mostLines);
  const show = (figure: number): string => showValue(figure, result.kind, settings);
  const told = ({ result: figure }: TriedFigure): string => (figure === null ? 'none' : show(figure));
  const isRatio = result.kind === 'percent';
  const measure = shorten(capital(result.name), 80);
  const unit = result.unit === '' || isRatio ? '' : `, ${result.unit}`;
  const name = measure.replaceAll("'", '’');
  const left = ranked.lines.length - lines.length;
  const figure = chartFigure({
    title: `It moves most with ${most.input}: ${reached(most, told)}`,
    key: key(['down', 'up']),
    kind: `Bars around today’s figure for each input, down and up, the widest on top. ${name}`,
    draw: (size) =>
      barsChart(
        {
          bars: lines.map((line) => barOf(line, today, told)),
          axisName: `${result.product === undefined ? name : 'Margin'}${isRatio ? ', %' : unit}`,
          axis: (value) => showTrimmed(isRatio ? value * 100 : value, isRatio ? 1 : 0, settings),
          leftPx: { wide: 190, narrow: 118 },
          base: today,
        },
        size,
      ),
    table: {
      caption: `${name}${unit}; today ${show(today)}`,
      columns: [words('Input'), words('From'), figures('gives'), words('To'), figures('gives')],
      rows: lines.map((line) => ({
        cells: [line.input, line.low.text, told(line.low), line.high.text, told(line.high)],
      })),
    },
  });
  const ownRange = lines.some(({ from }) => from === 'ranges.csv');
  return {
    id: 'sensitivity',
    title: `What moves ${result.product === undefined ? 'the month’s profit' : 'the least margin'} most?`,
    link: 'What moves it most',
    html: `<p><bdi>${escaped(name)}</bdi>${escaped(unit)}: ${escaped(show(today))} today. Each input goes down and up by ${escaped(showTrimmed(range * 100, 2, settings))} % of itself${ownRange ? ', or as far as ranges.csv says' : ''}; the others and today’s asking prices stay.${left > 0 ? ` ${escaped(capital(counted(left, 'more input does', 'more inputs do')))} less.` : ''}</p>
${figure}`,
  };
}

function barOf(line: SensitivityLine, today: number, told: (figure: TriedFigure) => string): SpanBar {
  const span = (figure: TriedFigure, colour: 'tint' | 'accent'): SpanBar['spans'] =>
    figure.result === null ? [] : [{ from: today, to: figure.result, words: told(figure), colour }];
  return {
    label: line.input,
    note: rangeWords(line),
    spans: [...span(line.low, 'tint'), ...span(line.high, 'accent')],
  };
}

/** `±10 %`, `19.00 to 26.00`: how far the input goes. */
function rangeWords({ low, high }: SensitivityLine): string {
  return low.text === high.text.replace('+', '-')
    ? high.text.replace('+', '± ')
    : `${low.text} to ${high.text}`;
}

function reached({ low, high }: SensitivityLine, told: (figure: TriedFigure) => string): string {
  return `${told(low)} at ${low.text}, ${told(high)} at ${high.text}`;
}
