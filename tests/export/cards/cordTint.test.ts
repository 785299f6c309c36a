import { describe, expect, it } from 'vitest';
import { cordTint } from '../../../engine/export/cards/cordTint.ts';
import { demoBook } from '../../support/books.ts';
import { reportOf } from './cards.ts';

describe('cordTint', () => {
  it.each([
    ['rust', cordTint('Rust')],
    ['grey with tracer', cordTint('grey')],
    ['river blue', cordTint('blue')],
    ['dark-green', cordTint('green')],
  ])('knows the plain word in “%s”', (colour, tint) => {
    expect(tint).toMatch(/^#[0-9A-F]{6}$/);
    expect(cordTint(colour)).toBe(tint);
  });

  it.each(['', 'number 14', 'constructor', 'infrared'])('gives none for “%s”', (colour) => {
    expect(cordTint(colour)).toBeUndefined();
  });

  it('knows the colour of every cord of the demo books', () => {
    for (const book of ['starter', 'metric']) {
      const cords = reportOf(demoBook(book)).report.cards.flatMap((card) => card.cords);
      expect(cords.filter(({ colour }) => cordTint(colour) === undefined)).toEqual([]);
    }
  });
});
