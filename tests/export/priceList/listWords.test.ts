import { describe, expect, it } from 'vitest';
import {
  listSentences,
  measureText,
  sizeWords,
  taxSentence,
  validFrom,
} from '../../../engine/export/priceList/listWords.ts';
import type { ListedTax } from '../../../engine/export/priceList/priceList.ts';
import { demoBook } from '../../support/books.ts';
import { imperial, metric } from '../../support/settings.ts';
import { listOf } from './lists.ts';

const inch = 25.4;

describe('the words of a list', () => {
  const { list, settings } = listOf(demoBook('starter'), 'wholesale');

  it.each<[ListedTax, string]>([
    [{ name: 'sales tax', included: true, ratio: 0.0825 }, 'Prices include sales tax of 8.25 %.'],
    [{ name: 'sales tax', included: true, ratio: 0 }, 'Nothing is added to these prices for sales tax.'],
    [
      { name: 'value-added tax', included: false, ratio: 0.07 },
      'Prices are without value-added tax; 7 % is added.',
    ],
    [{ name: 'tax', included: false, ratio: 0 }, 'Prices are without tax, which is added where it is due.'],
  ])('say how the prices stand to tax: %j', (tax, says) => {
    expect(taxSentence({ ...list, tax }, settings)).toBe(says);
  });

  it('say what a buyer has to know, in the notation of the book', () => {
    expect(listSentences(list, settings)).toEqual([
      'Prices are in USD, for one piece.',
      'Prices are without sales tax, which is added where it is due.',
      'Trade prices are the list prices less 45 %. Shops set their own prices.',
      'A price from so many pieces is for each of them, of one product in one order; its sizes count together.',
      'The measure beside a size is that of the body, taken snug with a tape.',
      'Least order: 120.00 USD of goods.',
    ]);
    const shops = listOf(demoBook('metric'), 'shops');
    expect(listSentences(shops.list, shops.settings)).toContain('Least order: 75,00 EUR of goods.');
    const plain = { ...list, breaksFrom: [], families: [], leastOrder: null, tradeDiscount: null };
    expect(listSentences(plain, settings)).toHaveLength(2);
  });

  it.each([
    ['2026-12-01', 'Valid from 1 December 2026'],
    ['2024-02-29', 'Valid from 29 February 2024'],
    ['2026-01-31', 'Valid from 31 January 2026'],
  ])('write the day %s out, in every time zone', (day, says) => {
    expect(validFrom({ ...list, validFrom: day })).toBe(says);
  });
});

describe('a body measure', () => {
  it.each([
    [5.75, '5 3/4'],
    [10.5, '10 1/2'],
    [18, '18'],
    [0.0625, '1/16'],
    [7.9375, '7 15/16'],
    [7.999, '8'],
    [6.3, '6.3'],
    [1200.25, '1,200 1/4'],
  ])('of %d inches reads as a tape does', (inches, text) => {
    expect(measureText(inches * inch, imperial)).toBe(text);
  });

  it('reads in centimetres and millimetres to the millimetre', () => {
    expect(measureText(185, metric)).toBe('18,5');
    expect(measureText(180.04, metric)).toBe('18');
    expect(measureText(184.6, { ...metric, lengthUnit: 'mm' })).toBe('185');
  });

  it('stands beside a size once, from drawn in to let out', () => {
    const words = (size: string, from: number, to: number) =>
      sizeWords({ size, fitsFromMm: from * inch, fitsToMm: to * inch }, imperial);
    expect(words('small', 5.75, 5.75)).toEqual({ size: 'small', fits: '5 3/4 in' });
    expect(words('medium', 13, 16)).toEqual({ size: 'medium', fits: '13 to 16 in' });
    expect(words('5 3/4 in', 5.75, 5.75)).toEqual({ size: '5 3/4 in', fits: '' });
    expect(sizeWords({ size: 'one', fitsFromMm: null, fitsToMm: null }, imperial)).toEqual({
      size: 'one',
      fits: '',
    });
  });
});
