import { describe, expect, it } from 'vitest';
import type { PriceList } from '../../../engine/export/priceList/priceList.ts';
import { type BookText, demoBook, demoBooks, pricedBook } from '../../support/books.ts';
import { setCells, setFigure } from '../../support/editBook.ts';
import { listsOf, type MadeList } from './lists.ts';
import { renderings } from './renderings.ts';

describe('what customers may see', () => {
  it('leaves no room for a cost: the compiler refuses one', () => {
    const product: PriceList['families'][number]['products'][number] = {
      name: 'Key fob',
      description: '',
      prices: [],
      // @ts-expect-error a price list cannot hold a cost
      unitCost: 1,
    };
    expect(product.name).toBe('Key fob');
  });

  /** Whoever adds a field has to say here that customers may see it. */
  it('is all that a list has room for', () => {
    const paths = new Set<string>();
    const walk = (value: unknown, path: string): void => {
      if (Array.isArray(value)) for (const each of value) walk(each, `${path}[]`);
      else if (value !== null && typeof value === 'object')
        for (const [key, each] of Object.entries(value)) walk(each, path === '' ? key : `${path}.${key}`);
      else paths.add(path);
    };
    for (const name of demoBooks) for (const { list } of listsOf(demoBook(name)).values()) walk(list, '');
    expect([...paths].sort()).toEqual([
      'breaksFrom[]',
      'cautions[].about',
      'cautions[].says',
      'channel',
      'currency',
      'families[].family',
      'families[].products[].description',
      'families[].products[].name',
      'families[].products[].prices[].breakPrices[]',
      'families[].products[].prices[].listPrice',
      'families[].products[].prices[].price',
      'families[].products[].prices[].sizes[].fitsFromMm',
      'families[].products[].prices[].sizes[].fitsToMm',
      'families[].products[].prices[].sizes[].size',
      'kind',
      'leastOrder',
      'tax.included',
      'tax.name',
      'tax.ratio',
      'terms',
      'tradeDiscount',
      'validFrom',
      'workshop',
    ]);
  });

  /** Prices set by hand, so that none follows from a cost: then nothing else of the book may reach a list. */
  it('does not change by a byte where costs, wages, suppliers, fees, margins, stock and names of materials do', async () => {
    const before = withAllPricesSet(demoBook('starter'));
    let after: BookText = setFigure(before, 'wage_per_hour', '91.37');
    after = setFigure(after, 'wanted_margin_percent', '3');
    after = setFigure(after, 'on_costs_percent', '47');
    after = setFigure(after, 'bench_hours_per_month', '13');
    after = setFigure(after, 'cut_step', '3 in');
    after = setCells(
      after,
      'materials.csv',
      { material: 'moss cord' },
      { pack_price: '777.77', supplier: 'The Other Mill', name: 'Renamed' },
    );
    after = setCells(after, 'overheads.csv', { overhead: 'a new roof' }, { per_month: '4321.09' });
    after = setCells(
      after,
      'fees.csv',
      { channel: 'stall', fee: 'new fee' },
      { percent: '11', fixed_per_piece: '0.37' },
    );
    after = setCells(after, 'work.csv', { for: 'bar', step: 'a secret step' }, { minutes_per_piece: '33.3' });
    after = setCells(
      after,
      'channels.csv',
      { channel: 'wholesale' },
      { postage_paid: '88.88', pieces_per_order: '3', wanted_margin_percent: '55' },
    );
    after = setCells(
      after,
      'products.csv',
      { product: 'fob short' },
      { batch_size: '3', minimum_price: '123.45', wanted_margin_percent: '12' },
    );
    after = new Map([...after, ['sheets/own.yaml', ownSheet]]);
    const costs = (book: BookText): number => pricedBook(book).values.number('costs', 'unit_cost', 0);
    expect(costs(after)).toBeGreaterThan(2 * costs(before));
    const lists = [...listsOf(after).values()];
    for (const [at, made] of [...listsOf(before).values()].entries()) {
      expect([...(await renderings(lists[at] as MadeList))]).toEqual([...(await renderings(made))]);
    }
  });
});

const ownSheet = `sheet: own
title: My own secrets
answers: What nobody should know.
rows: { each: products }
key: product
columns:
  - { id: product, heading: Product, kind: key }
  - { id: secret, heading: Secret, kind: money, formula: "costs[product].unit_cost * 2" }
`;

/** The book with every asking price set by hand, as it is now. */
function withAllPricesSet(book: BookText): BookText {
  const { plan, values } = pricedBook(book);
  const prices = plan.sheets.find(({ id }) => id === 'prices');
  const rows = Array.from({ length: prices?.rowCount ?? 0 }, (_, row) =>
    ['product', 'channel', 'asking'].map((column) => String(values.get('prices', column, row))).join(','),
  );
  return new Map([...book, ['set_prices.csv', `product,channel,asking\n${rows.join('\n')}\n`]]);
}
