import { expect, it } from 'vitest';
import { demoBook, priceFiles } from '../support/books.ts';
import { bigBook } from './bigBook.ts';

it('the book of the benchmark has as many products as were asked for, and no errors', () => {
  for (const products of [10, 100]) {
    const { problems, plan } = priceFiles(bigBook(demoBook('starter'), products));
    expect(problems.filter((each) => each.severity === 'error')).toEqual([]);
    expect(plan?.sheets.find(({ id }) => id === 'products')?.rowCount).toBe(products);
  }
});
