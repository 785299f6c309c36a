import type { Io } from '../io.ts';

/** Colours and weights, or nothing where they are not wanted (a pipe, NO_COLOR, --plain). */
export interface Style {
  readonly heading: (text: string) => string;
  readonly quiet: (text: string) => string;
  readonly bad: (text: string) => string;
  readonly watch: (text: string) => string;
}

const same = (text: string): string => text;
const code = (open: number, close: number) => (text: string) => `\u001b[${open}m${text}\u001b[${close}m`;

/** Colour only on a terminal, and never where NO_COLOR is set to anything but an empty text. */
export function styleFor(io: Io, plain = false): Style {
  const wanted = io.columns !== undefined && !io.env.NO_COLOR && io.env.TERM !== 'dumb' && !plain;
  if (!wanted) return { heading: same, quiet: same, bad: same, watch: same };
  return { heading: code(1, 22), quiet: code(2, 22), bad: code(31, 39), watch: code(33, 39) };
}
