import { describe, expect, it } from 'vitest';
import { stockLengthText } from '../../engine/cutting/stockLengthText.ts';
import { demoBook, pricedBook } from '../support/books.ts';

const feet = pricedBook(demoBook('starter')).plan.settings;
const metres = pricedBook(demoBook('metric')).plan.settings;

describe('stockLengthText', () => {
  it.each([
    [12, '640 ft', '12 ft'],
    [550.5, '640 ft', '550 ft 6 in'],
    [0.75, '9 ft 6 in', '9 in'],
    [550.5, '640', '550.5'],
    [3, '7 m', '0.914 m'],
    [3, '100 in', '36 in'],
    [917 + 10 / 12, '', '917 ft 10 in'],
  ])('%d ft, where the maker writes “%s”, is “%s”', (holds, model, written) => {
    expect(stockLengthText(holds, 'length', model, undefined, feet)).toBe(written);
  });

  it('writes a comma where the book does, and the unit of the heading without saying it again', () => {
    expect(stockLengthText(45.125, 'length', '86,5 m', undefined, metres)).toBe('45,125 m');
    expect(stockLengthText(45.125, 'length', '80', 'cm', metres)).toBe('4512,5');
  });

  it('never writes cord that is not there', () => {
    expect(stockLengthText(1.99999, 'length', '12', undefined, feet)).toBe('1.999');
    expect(stockLengthText(1.99999, 'length', '12 ft', undefined, feet)).toBe('1 ft 11.99 in');
  });

  it('counts pieces, and says so where the heading speaks of lengths', () => {
    expect(stockLengthText(46, 'pieces', '50', undefined, feet)).toBe('46');
    expect(stockLengthText(46, 'pieces', '50 pcs', undefined, feet)).toBe('46 pcs');
    expect(stockLengthText(46, 'pieces', '', 'ft', feet)).toBe('46 pcs');
  });
});
