import { expect, it } from 'vitest';
import { decodeText } from '../../../engine/book/files/decodeText.ts';

const text = 'material;pack\r\nœillet 4 mm;12,50 €\r\n';

it('reads UTF-8, with its mark or without', () => {
  const bytes = new TextEncoder().encode(text);
  expect(decodeText(bytes)).toBe(text);
  expect(decodeText(Uint8Array.of(0xef, 0xbb, 0xbf, ...bytes))).toBe(text);
});

it('reads what spreadsheet programs save as Unicode text: two bytes a letter, the lower first, after a mark', () => {
  const bytes = [...`\ufeff${text}`].flatMap((letter) => {
    const code = letter.charCodeAt(0);
    return [code & 0xff, code >> 8];
  });
  expect(bytes.slice(0, 2)).toEqual([0xff, 0xfe]);
  expect(decodeText(Uint8Array.from(bytes))).toBe(text);
});

it('marks letters that are neither', () => {
  expect(decodeText(Uint8Array.of(0x61, 0xff, 0x62))).toBe('a\ufffdb');
});
