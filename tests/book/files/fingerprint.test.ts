import { expect, test } from 'vitest';
import { fingerprint } from '../../../engine/book/files/fingerprint.ts';

test('tells texts apart that differ in one letter, in order or in length', () => {
  const texts = ['', 'a', 'b', 'ab', 'ba', 'aa', 'a\n', 'ā', 'wage: 22.00', 'wage: 22.01'];
  expect(new Set(texts.map(fingerprint)).size).toBe(texts.length);
  for (const each of texts) expect(fingerprint(each)).toMatch(/^[0-9a-f]{16}$/);
});

test('takes the same text for the same', () => {
  expect(fingerprint('sold_by,colour\r\n')).toBe(fingerprint(['sold_by', 'colour\r\n'].join(',')));
});
