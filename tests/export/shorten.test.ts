import { expect, test } from 'vitest';
import { shorten } from '../../engine/export/shorten.ts';

test('text that fits stays as it is; longer text ends in an ellipsis within its length', () => {
  expect(shorten('half knot', 9)).toBe('half knot');
  expect(shorten('half knots', 9)).toBe('half kno…');
});

test('a letter of two characters is never halved', () => {
  expect(shorten('ab🪢cd', 4)).toBe('ab…');
  expect(shorten('ab🪢cd', 5)).toBe('ab🪢…');
});
