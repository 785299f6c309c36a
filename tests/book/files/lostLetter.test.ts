import { expect, test } from 'vitest';
import { lineOfLostLetter } from '../../../engine/book/files/lostLetter.ts';

test('a lost letter is found by its line, whatever ends the lines', () => {
  expect(lineOfLostLetter('a\r\nb\rc\nd\uFFFDe')).toBe(4);
  expect(lineOfLostLetter('\uFFFD')).toBe(1);
  expect(lineOfLostLetter('café\n')).toBeUndefined();
});
