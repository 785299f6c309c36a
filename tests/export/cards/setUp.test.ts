import { describe, expect, it } from 'vitest';
import { setUp } from '../../../engine/export/cards/setUp.ts';
import { setCells } from '../../support/editBook.ts';
import { bookWithStrap, cardOf } from './cards.ts';

const inch = 25.4;
const pieceOf = (product: string, cells: Readonly<Record<string, string>> = {}) =>
  setUp(cardOf(setCells(bookWithStrap(), 'products.csv', { product }, cells), product).card);

describe('the lay-out of a piece', () => {
  it('has half of the hardware at each end', () => {
    const { lengthMm, woven, hardware } = pieceOf('strap');
    expect(lengthMm).toBeCloseTo(8 * inch, 9);
    expect(woven.fromMm).toBeCloseTo(0.625 * inch, 9);
    expect(woven.toMm - woven.fromMm).toBeCloseTo(6.75 * inch, 9);
    expect(hardware).toHaveLength(2);
  });

  it('has all of it at one end where there is one hitch', () => {
    const { woven, hardware } = pieceOf('fob short');
    expect(hardware).toEqual([{ fromMm: 0, toMm: expect.closeTo(inch, 9) }]);
    expect(woven.toMm).toBeCloseTo(4 * inch, 9);
  });

  it('has none where none takes length', () => {
    expect(pieceOf('handle bucket').hardware).toEqual([]);
  });

  it('leaves cord bare where the woven length is set shorter, and grows where it is set longer', () => {
    const shorter = pieceOf('strap', { woven_length_set: '4 in' });
    expect(shorter.lengthMm).toBeCloseTo(8 * inch, 9);
    expect(shorter.hardware[1]?.fromMm).toBeCloseTo(7.375 * inch, 9);
    expect(pieceOf('strap', { woven_length_set: '9 in' }).lengthMm).toBeCloseTo(10.25 * inch, 9);
  });

  it('takes the pitch from what is counted: so many half knots fill the woven part', () => {
    const { woven, pitchMm } = pieceOf('strap');
    // 1.17 cord diameters of 4 mm.
    expect(pitchMm).toBeCloseTo(4.68, 9);
    expect(woven.toMm - woven.fromMm).toBeCloseTo(171.45, 9);
  });
});
