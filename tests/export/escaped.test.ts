import { expect, it } from 'vitest';
import { escaped } from '../../engine/export/escaped.ts';

it.each([
  ['<b>&"\'', '&#60;b&#62;&#38;&#34;&#39;'],
  ['line\nand\ttab', 'line\nand\ttab'],
  ['bell\u0007 and nul\u0000', 'bell\uFFFD and nul\uFFFD'],
  ['8 in “moss” é 😀', '8 in “moss” é 😀'],
])('%j stays text in HTML and SVG', (text, written) => {
  expect(escaped(text)).toBe(written);
});
