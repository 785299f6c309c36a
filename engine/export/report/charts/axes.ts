import { chartColours } from './chartColours.ts';
import type { ChartOption } from './chartOption.ts';
import { roomOf } from './letters.ts';

/** How much room a chart has: beside the text of a page or on paper, and on a telephone. */
export interface ChartSize {
  readonly name: 'wide' | 'narrow';
  readonly widthPx: number;
}

export const chartSizes: readonly ChartSize[] = [
  { name: 'wide', widthPx: 700 },
  { name: 'narrow', widthPx: 328 },
];

const noteLetterPx = 11;
/** A line of a name, and of the note under it. */
export const lineHeightPx = 14;
/** Below the plot: figures of the axis, and its name. */
export const axisRoomPx = 46;

/** What an axis of figures reaches over. */
interface Reach {
  readonly plotPx: number;
  readonly least: number;
  readonly most: number;
}

/** So many steps are well told apart, and their figures do not run into each other. */
function stepsIn({ plotPx, least, most }: Reach, show: (figure: number) => string): number {
  const widest = Math.max(roomOf(show(least)), roomOf(show(most)));
  // The library rounds steps to round figures, which makes up to half as many more.
  return Math.max(1, Math.min(6, Math.floor(plotPx / (widest + 16) / 1.5)));
}

/** The axis of figures, along the bottom, named with its unit. */
export function figureAxis(
  name: string,
  show: (figure: number) => string,
  reach: Reach,
  more: ChartOption = {},
): ChartOption {
  return {
    type: 'value',
    name,
    nameLocation: 'middle',
    nameGap: 28,
    nameTextStyle: { color: chartColours.soft },
    splitNumber: stepsIn(reach, show),
    axisLabel: { color: chartColours.soft, formatter: show, hideOverlap: true },
    axisLine: { show: false },
    axisTick: { show: false },
    splitLine: { lineStyle: { color: chartColours.line } },
    ...more,
  };
}

/**
 * Rows from the top down, each with its name; one that begins with ¶ is a heading, set in bold.
 *
 * @param notes stand smaller under the names
 */
export function rowAxis(
  labels: readonly string[],
  roomPx: number,
  notes: readonly string[] = [],
): ChartOption {
  const plain = (text: string | undefined): string => (text ?? '').replace(/[{}|]/g, ' ');
  return {
    type: 'category',
    inverse: true,
    data: labels.map((_, at) => String(at)),
    axisLine: { lineStyle: { color: chartColours.line } },
    axisTick: { show: false },
    axisLabel: {
      interval: 0,
      margin: 8,
      lineHeight: lineHeightPx,
      color: chartColours.ink,
      formatter: (_: string, at: number) => {
        const label = plain(labels[at]);
        if (label.startsWith(headingMark)) return `{heading|${label.slice(headingMark.length)}}`;
        const note = plain(notes[at]);
        return note === '' ? label : `${label}\n{note|${note}}`;
      },
      rich: {
        heading: {
          fontWeight: 600,
          fontSize: 12,
          align: 'left',
          width: roomPx - 10,
          color: chartColours.ink,
        },
        note: { lineHeight: lineHeightPx, fontSize: noteLetterPx, color: chartColours.soft, align: 'right' },
      },
    },
  };
}

export const headingMark = '¶';

/** Words at the end of each row, in a column right of the plot. */
export function endWordsAxis(words: readonly string[]): ChartOption {
  return {
    type: 'category',
    inverse: true,
    position: 'right',
    data: words.map((_, at) => String(at)),
    axisLine: { show: false },
    axisTick: { show: false },
    axisLabel: {
      interval: 0,
      margin: 10,
      color: chartColours.ink,
      formatter: (_: string, at: number) => words[at] ?? '',
    },
  };
}

/** Words beside a mark: in ink, on the ground of the page so that no line runs through them. */
export function wordsBeside(
  position: 'right' | 'left' | 'top',
  color: string = chartColours.ink,
): ChartOption {
  return {
    show: true,
    position,
    color,
    fontSize: 12,
    textBorderWidth: 0,
    distance: 5,
    backgroundColor: chartColours.paper,
    padding: [1, 2],
  };
}
