import { shorten } from '../../shorten.ts';
import {
  axisRoomPx,
  type ChartSize,
  figureAxis,
  headingMark,
  lettersIn,
  rowAxis,
  wordsBeside,
} from './axes.ts';
import { type ChartColour, chartColours } from './chartColours.ts';
import type { ChartOption } from './chartOption.ts';

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
  /** Room beside the plot for names and for the words at the end, in pixels, wide and narrow. */
  readonly leftPx: Readonly<Record<ChartSize['name'], number>>;
  readonly rightPx: Readonly<Record<ChartSize['name'], number>>;
  /** Several dots at one place are to be seen. */
  readonly seeThrough: boolean;
  readonly fromZero: boolean;
  /** Each step of the axis is ten times as much; all figures above zero. */
  readonly logarithmic?: boolean;
}

/** Figures as dots along one axis, a row for each name. */
export function dotsChart(
  { rows, axisName, axis, rowPx, leftPx, rightPx, seeThrough, fromZero, logarithmic }: DotsOf,
  size: ChartSize,
): { readonly option: ChartOption; readonly heightPx: number } {
  const left = leftPx[size.name];
  const all = rows.flatMap(({ dots }, at) => dots.map((dot) => ({ dot, at })));
  const most = Math.max(...all.map(({ dot }) => dot.figure));
  const groups = new Map<string, { dot: Dot; at: number }[]>();
  for (const each of all) {
    const id = `${each.dot.mark}|${each.dot.colour}`;
    groups.set(id, [...(groups.get(id) ?? []), each]);
  }
  return {
    heightPx: rows.length * rowPx + axisRoomPx + 6,
    option: {
      grid: { left, right: rightPx[size.name], top: 6, bottom: axisRoomPx },
      xAxis: figureAxis(
        axisName,
        axis,
        size,
        logarithmic ? { type: 'log', logBase: 10 } : fromZero ? {} : { scale: true },
      ),
      yAxis: rowAxis(
        rows.map(({ label, heading }) =>
          heading ? headingMark + shorten(label, lettersIn(left - 6)) : shorten(label, lettersIn(left - 12)),
        ),
        left,
      ),
      series: [
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
        {
          type: 'scatter',
          silent: true,
          symbolSize: 1,
          itemStyle: { color: 'transparent' },
          label: wordsBeside('right'),
          data: rows.flatMap(({ words, dots }, at) =>
            words === undefined || dots.length === 0
              ? []
              : [{ value: [most, at], label: { formatter: words } }],
          ),
        },
      ],
    },
  };
}
