import type { Card } from './card.ts';
import { cordTint } from './cordTint.ts';
import { mm, pathOf } from './svg.ts';
import type { Point } from './weaveStrokes.ts';

/**
 * Cords as they are drawn: an ink outline with the tint of the cord's colour in it; dashes where the colour is
 * not a word that is known.
 *
 * @param lines centre lines, and the cord's width, in millimetres of paper
 */
export function drawCords(
  lines: readonly (readonly Point[])[],
  tint: string | undefined,
  widthMm: number,
  ends: 'round' | 'butt',
): string {
  if (lines.length === 0) return '';
  const d = pathOf(lines);
  const outlineMm = Math.min(0.18, widthMm / 8);
  const ended = ends === 'round' ? ' stroke-linecap="round"' : '';
  const inner = `stroke-width="${mm(Math.max(0.1, widthMm - 2 * outlineMm))}"`;
  const edge = `<path class="edge" stroke-width="${mm(widthMm)}"${ended} d="${d}"/>`;
  if (tint !== undefined) return `${edge}<path class="cord" stroke="${tint}" ${inner}${ended} d="${d}"/>`;
  const dashes = `${mm(Math.max(0.15, widthMm * 0.12))} ${mm(Math.max(0.5, widthMm * 0.35))}`;
  return `${edge}<path class="unknown" ${inner}${ended} d="${d}"/><path class="hatch" stroke-width="${mm(widthMm * 0.6)}" stroke-dasharray="${dashes}" d="${d}"/>`;
}

/** The tint in which the cord of a role is drawn; undefined where its colour is not a word that is known. */
export function tintOf(card: Card, role: string): string | undefined {
  return cordTint(card.cords.find((each) => each.role === role)?.colour ?? '');
}
