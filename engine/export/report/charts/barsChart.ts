import { axisRoomPx, type ChartSize, figureAxis, lineHeightPx, rowAxis, wordsBeside } from './axes.ts';
import { type ChartColour, chartColours } from './chartColours.ts';
import type { ChartOption } from './chartOption.ts';
import { fitted, inLines, roomOf } from './letters.ts';

/** A row with a bar from one figure to another; its words stand at their ends. */
export interface SpanBar {
  readonly label: string;
  /** Stands smaller under the label. */
  readonly note?: string;
  readonly spans: readonly {
    readonly from: number;
    readonly to: number;
    readonly words: string;
    readonly colour: ChartColour;
  }[];
}

export interface SpansOf {
  readonly bars: readonly SpanBar[];
  readonly axisName: string;
  readonly axis: (figure: number) => string;
  readonly leftPx: Readonly<Record<ChartSize['name'], number>>;
  /** Where all bars start from; a line stands there. */
  readonly base?: number;
}

/** Bars that reach from one figure to another: up and down from today's, or from nothing. */
export function barsChart(
  { bars, axisName, axis, leftPx, base }: SpansOf,
  size: ChartSize,
): { readonly option: ChartOption; readonly heightPx: number } {
  const left = leftPx[size.name];
  const spans = bars.flatMap((bar, at) => bar.spans.map((span) => ({ ...span, at })));
  const ends = spans.flatMap(({ from, to }) => [from, to]);
  const least = Math.min(...ends);
  const most = Math.max(...ends);
  // Words at the ends need room on the axis itself, since bars may go either way.
  const wordsPx = 12 + Math.max(...spans.map(({ words }) => roomOf(words)));
  // The last figure of the axis may stand at its end, and half of it hangs over.
  const right = Math.max(16, Math.ceil(roomOf(axis(most)) / 2));
  const plotPx = size.widthPx - left - right;
  const room =
    Math.max(most - least, Math.abs(most) * 1e-6, 1e-9) * (wordsPx / Math.max(40, plotPx - 2 * wordsPx));
  const labels = bars.map(({ label }) => inLines(label, left - 12));
  const mostLines = Math.max(
    ...bars.map(({ note }, at) => (labels[at]?.length ?? 1) + (note === undefined ? 0 : 1)),
  );
  const rowPx = Math.max(28, 8 + mostLines * lineHeightPx);
  return {
    heightPx: bars.length * rowPx + axisRoomPx + 6,
    option: {
      grid: { left, right, top: 6, bottom: axisRoomPx },
      xAxis: figureAxis(
        axisName,
        axis,
        { plotPx, least, most: most + room },
        {
          ...(least < 0 || base !== undefined ? { min: least - room } : { min: 0 }),
          max: most + room,
          splitLine: { lineStyle: { color: chartColours.line }, showMinLine: least >= 0, showMaxLine: false },
          // The ends of the axis lie wherever the words do; figures there would be no round ones.
          axisLabel: {
            color: chartColours.soft,
            formatter: axis,
            hideOverlap: true,
            showMinLabel: least >= 0 && base === undefined,
            showMaxLabel: false,
          },
        },
      ),
      yAxis: rowAxis(
        labels.map((lines) => lines.join('\n')),
        left,
        bars.map(({ note }) => fitted(note ?? '', left - 12)),
      ),
      series: [
        {
          type: 'custom',
          silent: true,
          encode: { x: [0, 1], y: 2 },
          data: spans.map(({ from, to, at }) => [from, to, at]),
          renderItem: spanBar(spans.map(({ colour }) => chartColours[colour])),
        },
        {
          type: 'scatter',
          silent: true,
          symbolSize: 1,
          itemStyle: { color: 'transparent' },
          data: spans.map(({ from, to, words, at }) => ({
            value: [to, at],
            label: { ...wordsBeside(to < from ? 'left' : 'right'), formatter: words },
          })),
        },
        ...(base === undefined
          ? []
          : [
              {
                type: 'scatter',
                silent: true,
                symbol: 'rect',
                symbolSize: [1.5, rowPx],
                itemStyle: { color: chartColours.ink },
                data: bars.map((_, at) => [base, at]),
              },
            ]),
      ],
    },
  };
}

interface Drawer {
  value(dimension: number): number;
  coord(point: readonly [number, number]): readonly [number, number];
}

function spanBar(colours: readonly string[]) {
  return ({ dataIndex }: { readonly dataIndex: number }, api: Drawer): ChartOption => {
    const row = api.value(2);
    const [from, y] = api.coord([api.value(0), row]);
    const [to] = api.coord([api.value(1), row]);
    return {
      type: 'rect',
      shape: { x: Math.min(from, to), y: y - 8, width: Math.abs(to - from), height: 16 },
      style: { fill: colours[dataIndex] ?? chartColours.accent },
    };
  };
}
