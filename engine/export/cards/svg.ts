import { escaped } from '../escaped.ts';
import { shorten } from '../shorten.ts';
import type { Point } from './weaveStrokes.ts';

/** Height of letters in the figure, in millimetres on paper: about nine points. */
export const letterMm = 3.1;
/** Rows of text in the figure are so far apart. */
export const rowMm = 4.6;

/** A coordinate with as many decimals as a printer can tell apart. */
export function mm(value: number): string {
  return String(Math.round(value * 100) / 100);
}

export function pathOf(lines: readonly (readonly Point[])[]): string {
  return lines
    .map((line) => line.map(([x, y], at) => `${at === 0 ? 'M' : 'L'}${mm(x)} ${mm(y)}`).join(''))
    .join('');
}

/** Text that is cut off before it could leave the room that it has. */
export function label(
  x: number,
  y: number,
  text: string,
  roomMm: number,
  anchor: 'start' | 'middle' | 'end' = 'start',
): string {
  const letters = Math.max(3, Math.floor(roomMm / (letterMm * 0.53)));
  const place = anchor === 'start' ? '' : ` text-anchor="${anchor}"`;
  return `<text x="${mm(x)}" y="${mm(y)}"${place}>${escaped(shorten(text, letters))}</text>`;
}

/** A line with a stroke across each end, as draughtsmen mark what they measure. */
export function dimension(fromMm: number, toMm: number, y: number): string {
  return `<path class="dim" d="M${mm(fromMm)} ${mm(y)}H${mm(toMm)}M${mm(fromMm)} ${mm(y - 1.2)}V${mm(y + 1.2)}M${mm(toMm)} ${mm(y - 1.2)}V${mm(y + 1.2)}"/>`;
}
