import { describe, expect, it } from 'vitest';
import { listedAlike } from '../../../engine/export/priceList/alike.ts';
import { priceListReport } from '../../../engine/export/priceList/priceListReport.ts';
import { priceBook } from '../../../engine/priceBook.ts';
import { demoBook, sourceOf } from '../../support/books.ts';

function alike(products: string): readonly string[] {
  const book = new Map([...demoBook('starter'), ['products.csv', products]]);
  const { plan, values } = priceBook(sourceOf(book));
  if (plan === undefined || values === undefined) throw new Error('The book cannot be priced');
  return listedAlike(priceListReport(plan, values, 'stall', '2026-12-01'));
}

describe('products that customers cannot tell apart', () => {
  const products = demoBook('starter').get('products.csv') ?? '';

  it('are none in the starter book', () => {
    expect(alike(products)).toEqual([]);
  });

  it('are those of one name, size and description', () => {
    const long = products.replace('3 in,bar,,,,slate cord', '4 1/2 in,bar,,,,slate cord');
    expect(alike(long)).toEqual([]);
    expect(alike(long.replace(',Slate.', ',Coal with rust.'))).toEqual(['Key fob']);
  });
});
