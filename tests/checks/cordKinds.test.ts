import Papa from 'papaparse';
import { describe, expect, it } from 'vitest';
import { type BookText, demoBook, pricedBook, shipped } from '../support/books.ts';
import { setCells, setFigure } from '../support/editBook.ts';

/*
 * MIL-C-5040H (1994), "Cord, fibrous, nylon": least breaking strength in lbf, least elongation in per cent,
 * least length in feet to the pound. Type III was read in full; of the others the values that only memory gives
 * are named so in the table's own column "source".
 */
const published = [
  ['type I', 95, 30, 950],
  ['type IA', 100, 30, 1050],
  ['type II', 400, 30, 265],
  ['type IIA', 225, 30, 495],
  ['type III', 550, 30, 225],
  ['type IV', 750, 30, 165],
] as const;

const gPerLb = 453.59237;
const newtonPerLbf = 4.4482216152605;

/** The sheet Cord kinds by kind, in the units of the book. */
function kindsOf(book: string): Map<string, Record<string, number>> {
  const { plan, values } = pricedBook(demoBook(book));
  const sheet = plan.sheets.find(({ id }) => id === 'cord_kinds');
  return new Map(
    Array.from({ length: sheet?.rowCount ?? 0 }, (_, row) => [
      String(values.get('cord_kinds', 'cord_kind', row)),
      Object.fromEntries(
        ['weight', 'strength', 'stretch_percent'].map((id) => [id, values.number('cord_kinds', id, row)]),
      ),
    ]),
  );
}

describe('the shipped cord kinds', () => {
  it.each(published)('%s: %d lbf, stretch %d, %d ft to the pound', (kind, lbf, percent, feet) => {
    const imperial = kindsOf('starter').get(kind);
    expect(imperial?.weight).toBeCloseTo(16 / feet, 12); // ounces a foot
    expect(imperial?.strength).toBe(lbf);
    expect(imperial?.stretch_percent).toBe(percent / 100);
    const metric = kindsOf('metric').get(kind);
    expect(metric?.weight).toBeCloseTo(gPerLb / (0.3048 * feet), 12); // grams a metre
    expect(metric?.strength).toBeCloseTo(lbf * newtonPerLbf, 9);
  });

  it('are no others than these', () => {
    expect([...kindsOf('metric').keys()]).toEqual(published.map(([kind]) => kind));
  });

  it('say from where each figure is', () => {
    const table = Papa.parse<Record<string, string>>(shipped.tables.get('cord_kinds.csv') ?? '', {
      header: true,
      skipEmptyLines: true,
    }).data;
    for (const row of table) expect(row.source, row.cord_kind).toContain('MIL-C-5040H');
    const remembered = table
      .filter(({ source }) => source?.includes('from memory'))
      .map((row) => row.cord_kind);
    expect(remembered).toEqual(['type I', 'type IA', 'type II', 'type IIA', 'type IV']);
  });
});

it('100 ft of type III weighs at most 201.60 g: 100/225 lb, by the sheets', () => {
  let book: BookText = setCells(
    demoBook('starter'),
    'parts.csv',
    { product: 'fob short', material: 'slate cord' },
    { quantity: '100 ft' },
  );
  book = setFigure(book, 'weight_unit', 'g');
  const { plan, values } = pricedBook(book);
  const row = plan.sheets
    .find(({ id }) => id === 'parts')
    ?.columns.find(({ id }) => id === 'material')
    ?.inputs?.indexOf('slate cord');
  expect(values.number('parts', 'weight', row ?? -1)).toBeCloseTo((100 / 225) * gPerLb, 9);
  expect(values.number('parts', 'weight', row ?? -1).toFixed(2)).toBe('201.60');
  expect(values.get('parts', 'weight_from', row ?? -1)).toBe('at most, by specification');
});
