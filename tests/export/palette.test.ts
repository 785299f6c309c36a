import { expect, test } from 'vitest';
import * as palette from '../../engine/export/palette.ts';

/** Relative luminance, WCAG 2.2. */
function luminance(argb: string): number {
  const [red = 0, green = 0, blue = 0] = [2, 4, 6].map((at) => {
    const share = Number.parseInt(argb.slice(at, at + 2), 16) / 255;
    return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
}

function contrast(one: string, other: string): number {
  const [light = 0, dark = 0] = [luminance(one), luminance(other)].sort((a, b) => b - a);
  return (light + 0.05) / (dark + 0.05);
}

test.each([
  ['ink on an input', palette.ink, palette.inputGround],
  ['ink on an override', palette.ink, palette.overrideGround],
  ['ink on a failed check', palette.ink, palette.badGround],
  ['ink on a check to watch', palette.ink, palette.watchGround],
  ['ink on a bar', palette.ink, palette.barColour],
  ['a heading', palette.accent, palette.quiet],
  ['the word “well”', palette.good, palette.paper],
])('%s is easy to read', (_, text, ground) => {
  expect(contrast(text, ground)).toBeGreaterThanOrEqual(4.5);
});
