import { chartColours } from './chartColours.ts';
import type { ChartOption } from './chartOption.ts';

/** How much room a chart has: beside the text of a page or on paper, and on a telephone. */
export interface ChartSize {
  readonly name: 'wide' | 'narrow';
  readonly widthPx: number;
}

export const chartSizes: readonly ChartSize[] = [
  { name: 'wide', widthPx: 700 },
  { name: 'narrow', widthPx: 328 },
];

/** A letter of twelve pixels is so wide on the average, on the wide side of the system's fonts. */
const letterPx = 6.6;
/** Below the plot: figures of the axis, and its name. */
export const axisRoomPx = 46;

/** How many letters fit into a room. */
export function lettersIn(roomPx: number): number {
  return Math.max(4, Math.floor(roomPx / letterPx));
}

/** Room that a text takes. */
export function roomOf(text: string): number {
  return Math.ceil(text.length * letterPx);
}

/** The axis of figures, along the bottom, named with its unit. */
export function figureAxis(
  name: string,
  show: (figure: number) => string,
  size: ChartSize,
  more: ChartOption = {},
): ChartOption {
  return {
    type: 'value',
    name,
    nameLocation: 'middle',
    nameGap: 28,
    nameTextStyle: { color: chartColours.soft },
    splitNumber: size.name === 'wide' ? 6 : 3,
    axisLabel: { color: chartColours.soft, formatter: show, hideOverlap: true },
    axisLine: { show: false },
    axisTick: { show: false },
    splitLine: { lineStyle: { color: chartColours.line } },
    ...more,
  };
}

/** Rows from the top down, each with its name; one that begins with ¶ is a heading, set in bold. */
export function rowAxis(labels: readonly string[], roomPx: number): ChartOption {
  return {
    type: 'category',
    inverse: true,
    data: labels.map((_, at) => String(at)),
    axisLine: { lineStyle: { color: chartColours.line } },
    axisTick: { show: false },
    axisLabel: {
      interval: 0,
      margin: 8,
      color: chartColours.ink,
      formatter: (_: string, at: number) => {
        const label = (labels[at] ?? '').replace(/[{}|]/g, ' ');
        return label.startsWith(headingMark) ? `{heading|${label.slice(headingMark.length)}}` : label;
      },
      rich: {
        heading: {
          fontWeight: 600,
          fontSize: 12,
          align: 'left',
          width: roomPx - 10,
          color: chartColours.ink,
        },
      },
    },
  };
}

export const headingMark = '¶';

/** Words beside a mark: in ink, without the rim that the library gives them. */
export function wordsBeside(
  position: 'right' | 'left' | 'top',
  color: string = chartColours.ink,
): ChartOption {
  return { show: true, position, color, fontSize: 12, textBorderWidth: 0, distance: 7 };
}
