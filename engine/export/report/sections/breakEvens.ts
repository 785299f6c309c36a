import { showNumber } from '../../../sheets/showValue.ts';
import type { BookReport, BreakEven, MonthFigures } from '../bookReport.ts';
import { channelKey, channelLook } from '../channelMarks.ts';
import { chartFigure, inParts, partWords } from '../chartFigure.ts';
import { barsChart, type SpanBar } from '../charts/barsChart.ts';
import { type Dot, dotsChart } from '../charts/dotsChart.ts';
import { figures, words } from '../dataTable.ts';
import { extreme, shownIn } from '../shown.ts';
import type { Section } from './section.ts';

const mostRows = 36;

/** How much must sell for nothing to be lost: of all together in a month, and of each alone. */
export function breakEvens(report: BookReport): Section | null {
  const { breakEven, month } = report;
  if (breakEven === null) return null;
  const pictures = [...(month === null ? [] : ofMonth(report, month)), ...ofEach(report, breakEven)];
  if (pictures.length === 0) return null;
  return {
    id: 'break-even',
    title: 'How much must sell for nothing to be lost?',
    link: 'Break-even',
    html: pictures.join('\n'),
  };
}

function ofMonth({ settings }: BookReport, month: MonthFigures): string[] {
  const shown = shownIn(settings);
  const { breakEvenRatio, breakEvenTakings, wantedTakings } = month;
  if (breakEvenRatio === null || breakEvenTakings === null) return [];
  const bar = (label: string, to: number, colour: SpanBar['spans'][number]['colour']): SpanBar => ({
    label,
    spans: [{ from: 0, to, words: shown.money(to), colour }],
  });
  const bars = [
    bar('Expected sales', month.takings, 'accent'),
    bar('Break-even', breakEvenTakings, 'slate'),
    ...(wantedTakings === null ? [] : [bar('Profit wanted', wantedTakings, 'sand')]),
  ];
  return [
    chartFigure({
      title: `Nothing is lost from ${shown.share(breakEvenRatio)} of the expected sales on`,
      kind: 'Bars of the takings of a month: expected, at break-even, and for the profit wanted',
      draw: (size) =>
        barsChart(
          {
            bars,
            axisName: `Takings of a month before tax, ${settings.currency}`,
            axis: shown.axis,
            leftPx: { wide: 130, narrow: 100 },
          },
          size,
        ),
      table: {
        caption: `The month of the expected sales, ${settings.currency}`,
        columns: [words('Figure'), figures('A month')],
        rows: [
          { cells: ['Takings', shown.money(month.takings)] },
          { cells: ['Contribution', shown.money(month.contribution)] },
          { cells: ['Overhead', shown.money(month.overhead)] },
          { cells: ['Profit', shown.money(month.profit)] },
          { cells: ['Break-even, share of the expected sales', shown.share(breakEvenRatio)] },
          { cells: ['Takings at break-even', shown.money(breakEvenTakings)] },
          ...(wantedTakings === null
            ? []
            : [{ cells: ['Takings for the profit wanted', shown.money(wantedTakings)] }]),
        ],
      },
    }),
  ];
}

interface Alone {
  readonly product: string;
  readonly each: readonly (BreakEven | undefined)[];
  readonly fewest: number;
}

function ofEach({ prices, settings }: BookReport, breakEven: readonly BreakEven[]): string[] {
  const channels = prices.channels.map(({ channel }) => channel);
  const count = (pieces: number): string => showNumber(pieces, 0, settings);
  const ranked = prices.products
    .map(({ product }): Alone => {
      const each = channels.map((channel) =>
        breakEven.find((one) => one.product === product && one.channel === channel),
      );
      return {
        product,
        each,
        fewest: Math.min(...each.map((one) => one?.piecesWhole ?? Number.POSITIVE_INFINITY)),
      };
    })
    .sort((one, other) => one.fewest - other.fewest);
  const drawn = ranked.filter(({ fewest }) => Number.isFinite(fewest));
  const best = extreme(
    breakEven.filter(({ piecesWhole }) => piecesWhole !== null),
    ({ piecesWhole }) => piecesWhole ?? 0,
    'least',
  );
  if (best?.piecesWhole == null) return [];
  const parts = inParts(drawn, mostRows);
  return parts.map((part, at) =>
    chartFigure({
      title: `Alone, ${count(best.piecesWhole ?? 0)} of ${best.product} at ${best.channel} pay the month’s overhead${partWords(at, parts.length)}`,
      key: channelKey(channels),
      kind: 'Products ranked by how many of each, sold alone, pay the overhead of a month, a mark for each channel; the scale is logarithmic',
      draw: (size) =>
        dotsChart(
          {
            rows: part.map(({ product, each }) => ({
              label: product,
              dots: each.flatMap((one, channel): Dot[] =>
                one?.piecesWhole == null || one.piecesWhole <= 0
                  ? []
                  : [{ figure: one.piecesWhole, ...channelLook(channel) }],
              ),
            })),
            axisName: 'Pieces a month, tenfold steps',
            axis: count,
            rowPx: 21,
            leftPx: { wide: 150, narrow: 98 },
            seeThrough: false,
            fromZero: true,
            logarithmic: true,
          },
          size,
        ),
      table: {
        caption: 'Pieces a month that alone pay the overhead; * more bench hours than the month has',
        columns: [words('Product'), ...channels.map(figures)],
        rows: part.map(({ product, each }) => ({
          cells: [
            product,
            ...each.map((one) =>
              one?.piecesWhole == null ? 'none' : `${count(one.piecesWhole)}${one.withinHours ? '' : ' *'}`,
            ),
          ],
        })),
      },
    }),
  );
}
