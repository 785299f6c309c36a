import fc from 'fast-check';
import { expect, test } from 'vitest';
import { paragraphs } from '../../../engine/export/ods/paragraphs.ts';
import { element } from '../../../engine/export/xml.ts';
import { textOf } from '../../support/odsParts.ts';
import { xmlTree } from '../../support/xmlTree.ts';

function read(text: string): string | undefined {
  return textOf(xmlTree(`<cell xmlns:text="t">${paragraphs(text)}</cell>`));
}

test.each([
  '',
  ' ',
  '  leading and trailing  ',
  'two  blanks',
  'a \t b',
  '\t',
  'one\ntwo\n\nfour\n',
  '<b>&amp; "so"</b>',
  ']]>',
  ' a ',
  '🪢 線 ä',
])('text is read as it was: %j', (text) => {
  expect(read(text)).toBe(text);
});

test('any text comes back, but for characters that no XML may hold', () => {
  const letters = fc.constantFrom(
    ' ',
    '  ',
    '\t',
    '\n',
    'a',
    '<',
    '&',
    '>',
    '"',
    '\u0001',
    '\uFFFE',
    '\uD800',
    '線',
  );
  fc.assert(
    fc.property(fc.oneof(fc.string({ unit: letters }), fc.string({ unit: 'binary' })), (text) => {
      // A line ends where it ends, however that was written.
      const lines = text.replaceAll(/\r\n?/g, '\n');
      const lost = lines.replaceAll(/[^\t\n\u0020-\uD7FF\uE000-\uFFFD\u{10000}-\u{10FFFF}]/gu, '\uFFFD');
      expect(read(text)).toBe(lost);
    }),
    { numRuns: 500 },
  );
});

test('an attribute comes back whole', () => {
  fc.assert(
    fc.property(
      fc.string({ unit: fc.constantFrom('"', "'", '\n', '\r', '\t', ' ', '&', '<', 'a') }),
      (text) => {
        expect(xmlTree(element('a', { of: text })).attributes.of).toBe(text);
      },
    ),
  );
});
