import {
  axisRoomPx,
  type ChartSize,
  endWordsAxis,
  figureAxis,
  headingMark,
  rowAxis,
  wordsBeside,
} from './axes.ts';
import { type ChartColour, chartColours } from './chartColours.ts';
import type { ChartOption } from './chartOption.ts';
import { fitted, roomOf } from './letters.ts';

/** One dot; its words stand beside it where it has some. */
export interface Dot {
  readonly figure: number;
  readonly mark: 'circle' | 'triangle' | 'diamond' | 'rect' | 'tick';
  readonly colour: ChartColour;
  readonly words?: string;
}

/** A row of dots under one name; a heading where it has none. */
export interface DotRow {
  readonly label: string;
  readonly heading?: true;
  readonly dots: readonly Dot[];
  /** What stands at the end of the row. */
  readonly words?: string;
}

export interface DotsOf {
  readonly rows: readonly DotRow[];
  readonly axisName: string;
  readonly axis: (figure: number) => string;
  readonly rowPx: number;
  /** Room beside the plot for names, in pixels, wide and narrow. */
  readonly leftPx: Readonly<Record<ChartSize['name'], number>>;
  /** Several dots at one place are to be seen. */
  readonly seeThrough: boolean;
  readonly fromZero: boolean;
  /** Each step of the axis is ten times as much; all figures above zero. */
  readonly logarithmic?: boolean;
}

/** Figures as dots along one axis, a row for each name. */
export function dotsChart(
  { rows, axisName, axis, rowPx, leftPx, seeThrough, fromZero, logarithmic }: DotsOf,
  size: ChartSize,
): { readonly option: ChartOption; readonly heightPx: number } {
  const left = leftPx[size.name];
  const longest = Math.max(0, ...rows.map(({ words }) => roomOf(words ?? '')));
  // Half of the last figure of the axis hangs over where no words stand.
  const right = longest === 0 ? 24 : longest + 16;
  const all = rows.flatMap(({ dots }, at) => dots.map((dot) => ({ dot, at })));
  const least = Math.min(...all.map(({ dot }) => dot.figure));
  const most = Math.max(...all.map(({ dot }) => dot.figure));
  const groups = new Map<string, { dot: Dot; at: number }[]>();
  for (const each of all) {
    const id = `${each.dot.mark}|${each.dot.colour}`;
    groups.set(id, [...(groups.get(id) ?? []), each]);
  }
  return {
    heightPx: rows.length * rowPx + axisRoomPx + 6,
    option: {
      grid: { left, right, top: 6, bottom: axisRoomPx },
      xAxis: figureAxis(
        axisName,
        axis,
        { plotPx: size.widthPx - left - right, least, most },
        logarithmic ? { type: 'log', logBase: 10 } : fromZero ? {} : { scale: true },
      ),
      yAxis: [
        rowAxis(
          rows.map(({ label, heading }) =>
            heading ? headingMark + fitted(label, left - 10) : fitted(label, left - 12),
          ),
          left,
        ),
        endWordsAxis(rows.map(({ words }) => words ?? '')),
      ],
      series: [
        // Left of nothing money is lost, so that line is to be seen.
        ...(least < 0
          ? [
              {
                type: 'scatter',
                silent: true,
                symbol: 'rect',
                symbolSize: [1.5, rowPx],
                itemStyle: { color: chartColours.soft, opacity: 1 },
                data: rows.map((_, at) => [0, at]),
              },
            ]
          : []),
        ...[...groups.values()].map((group) => {
          const [first] = group;
          const mark = first?.dot.mark ?? 'circle';
          return {
            type: 'scatter',
            silent: true,
            symbol: mark === 'tick' ? 'rect' : mark,
            symbolSize: mark === 'tick' ? [3, 18] : mark === 'circle' ? 9 : mark === 'rect' ? 8 : 11,
            itemStyle: {
              color: chartColours[first?.dot.colour ?? 'accent'],
              opacity: seeThrough && mark === 'circle' ? 0.45 : 1,
            },
            label: { ...wordsBeside('top'), distance: 3 },
            data: group.map(({ dot, at }) => ({
              value: [dot.figure, at],
              label: { show: dot.words !== undefined, formatter: dot.words ?? '' },
            })),
          };
        }),
        // An axis is drawn only where something belongs to it.
        { type: 'scatter', silent: true, yAxisIndex: 1, data: [] },
      ],
    },
  };
}
