import { escaped } from '../escaped.ts';
import { shorten } from '../shorten.ts';
import type { Point } from './weaveStrokes.ts';

/** Height of letters in the figure, in millimetres on paper: about nine points. */
export const letterMm = 3.1;
/** A letter is so wide for its height, on the wide side of the system's fonts. */
const letterShare = 0.55;
/** Rows of text in the figure are so far apart. */
export const rowMm = 4.4;

/** A coordinate with as many decimals as a printer can tell apart. */
export function mm(value: number): string {
  return String(Math.round(value * 100) / 100);
}

export function pathOf(lines: readonly (readonly Point[])[]): string {
  return lines
    .map((line) => line.map(([x, y], at) => `${at === 0 ? 'M' : 'L'}${mm(x)} ${mm(y)}`).join(''))
    .join('');
}

const lettersIn = (roomMm: number): number => Math.floor(roomMm / (letterMm * letterShare));

/** Whether a text fits as it is. */
export function hasRoom(text: string, roomMm: number): boolean {
  return text.length <= lettersIn(roomMm);
}

/** Text that is cut off before it could leave the room that it has. */
export function label(
  x: number,
  y: number,
  text: string,
  roomMm: number,
  anchor: 'start' | 'middle' | 'end' = 'start',
): string {
  const letters = Math.max(3, lettersIn(roomMm));
  const place = anchor === 'start' ? '' : ` text-anchor="${anchor}"`;
  return `<text x="${mm(x)}" y="${mm(y)}"${place}>${escaped(shorten(text, letters))}</text>`;
}

/** A line with a stroke across each end, as draughtsmen mark what they measure. */
export function dimension(fromMm: number, toMm: number, y: number): string {
  return `<path class="dim" d="M${mm(fromMm)} ${mm(y)}H${mm(toMm)}M${mm(fromMm)} ${mm(y - 1.2)}V${mm(y + 1.2)}M${mm(toMm)} ${mm(y - 1.2)}V${mm(y + 1.2)}"/>`;
}

/** Text over a dimension, moved inwards where it would leave the paper. */
export function centred(text: string, fromX: number, toX: number, y: number, widthMm: number): string {
  const half = (text.length * letterMm * letterShare) / 2;
  const at = Math.min(Math.max((fromX + toX) / 2, half), Math.max(half, widthMm - half));
  return label(at, y, text, widthMm, 'middle');
}
