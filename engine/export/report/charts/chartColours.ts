import { accent, bad, cssColour, good, ink, line, paper, quiet, watch } from '../../palette.ts';

export type ChartColour =
  | 'ink'
  | 'paper'
  | 'quiet'
  | 'line'
  | 'accent'
  | 'good'
  | 'watch'
  | 'bad'
  | 'soft'
  | 'tint'
  | 'slate'
  | 'sand';

/**
 * Colours of charts by name. A picture is drawn in these and written with the page's own names for them.
 * Neighbours in a stacked bar alternate between dark and light, so that they stay apart in grey print.
 */
export const chartColours: Readonly<Record<ChartColour, string>> = {
  ink: cssColour(ink),
  paper: cssColour(paper),
  quiet: cssColour(quiet),
  line: cssColour(line),
  accent: cssColour(accent),
  good: cssColour(good),
  watch: cssColour(watch),
  bad: cssColour(bad),
  soft: '#5A6670',
  /** The accent thinned on white: a range, and the second part of a cost. */
  tint: '#A9C6C8',
  /** Between ink and accent: the third part of a cost. */
  slate: '#4A5B6C',
  /** The line darkened a little: the fourth part of a cost. */
  sand: '#D5C9A8',
};

const names = new Map(Object.entries(chartColours).map(([name, colour]) => [colour.toLowerCase(), name]));

/** A colour as the page calls it; `none` and what is no colour of ours stay. */
export function variableOf(colour: string): string {
  const name = names.get(colour.toLowerCase());
  if (name !== undefined) return `var(--${name})`;
  if (colour === 'none' || colour === 'transparent') return colour;
  throw new Error(`The colour ${colour} is none of the palette's`);
}
