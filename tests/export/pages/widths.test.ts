import fc from 'fast-check';
import { expect, test } from 'vitest';
import { headingWidth, rowHeight, textWidth, wrappedLines } from '../../../engine/export/pages/widths.ts';

test('a digit is one unit, give or take what a screen adds; narrow letters take less, wide ones more', () => {
  expect(textWidth('0')).toBeCloseTo(1.06, 2);
  expect(textWidth('i')).toBeLessThan(textWidth('n'));
  expect(textWidth('n')).toBeLessThan(textWidth('W'));
  expect(textWidth('線')).toBeGreaterThan(textWidth('n'));
});

test('a heading fits the lines it was given, at the least width that does', () => {
  const words = fc.array(fc.stringMatching(/^[a-zA-Z]{1,12}$/), { minLength: 1, maxLength: 8 });
  fc.assert(
    fc.property(words, fc.integer({ min: 1, max: 3 }), (each, lines) => {
      const text = each.join(' ');
      expect(wrappedLines(text, headingWidth(text, lines), 1.08)).toBeLessThanOrEqual(lines);
    }),
  );
});

test('words are never broken', () => {
  expect(wrappedLines('incomprehensibilities', 3)).toBe(1);
  expect(wrappedLines('one two three', 5)).toBe(3);
  expect(rowHeight(2)).toBeGreaterThan(rowHeight(1));
});

test('columns end at 255 digits, and rows at 409 points, as in the format', () => {
  expect(headingWidth('W'.repeat(40_000), 3)).toBe(255);
  expect(headingWidth('word '.repeat(5000), 3)).toBe(255);
  expect(rowHeight(5000)).toBeLessThanOrEqual(409);
});
