import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { demoBook, pricedBook } from '../support/books.ts';

const path = join(import.meta.dirname, '../../docs/sizing.md');
const page = (): string => readFileSync(path, 'utf8');

describe('docs/sizing.md', () => {
  const { plan, values } = pricedBook(demoBook('starter'));
  const products = plan.sheets.find(({ id }) => id === 'products');
  const rowOf = (product: string): number =>
    products?.columns.find(({ id }) => id === 'product')?.inputs?.indexOf(product) ?? -1;

  it('shows the collars as the starter book has them', () => {
    for (const size of ['small', 'medium', 'large']) {
      const row = rowOf(`collar ${size}`);
      const figures = [
        ...['body_measure', 'finished', 'woven_length'].map((id) =>
          values.number('products', id, row).toFixed(2),
        ),
        String(values.number('geometry', 'half_knots', row)),
      ];
      expect(page()).toContain(`| collar ${size} | ${figures.join(' | ')} |`);
    }
  });

  it('says which necks the adjustable collar fits', () => {
    const [from, to] = ['fits_from', 'fits_to'].map((id) =>
      values.number('products', id, rowOf('collar night')).toFixed(2),
    );
    expect(page()).toContain(`it fits from ${from} in to ${to} in.`);
  });
});
