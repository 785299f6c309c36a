import type { Priced, Source } from './priceBook.ts';
import { priceBook } from './priceBook.ts';

/** A question about one piece: what a weave takes. Measures as text, in the book's own notation. */
export interface CordQuestion {
  readonly weave: string;
  readonly layers: string;
  readonly core: string;
  readonly length: string;
  readonly diameter: string;
  /** Colours by role (`core`, `over`, `under`, `upper over`, `upper under`); `over` must be there. */
  readonly colours: ReadonlyMap<string, string>;
  readonly hitches: string;
  readonly bar: string;
  readonly takeUp: string;
  /** Length unit of the answer. */
  readonly unit: 'in' | 'cm' | 'mm';
  /** Lines of `book.yaml` to set: cutting step, spare, trim. */
  readonly rates: ReadonlyMap<string, string>;
}

/**
 * Answers a one-off cord question through the very sheets that price a book: a book with one product is made
 * and calculated. Costs in it are zero and not to be read.
 *
 * @param source shipped sheets (with the one-off ones) and tables; its `book` may bring a `weaves.csv`
 */
export function oneOffCord(question: CordQuestion, source: Source): Priced {
  const over = question.colours.get('over') ?? 'cord';
  const product = new Map([
    ['product', 'piece'],
    ['weave', question.weave],
    ['layers', question.layers],
    ['core_strands', question.core],
    ['over_cord', over],
    ['core_cord', question.colours.get('core') ?? ''],
    ['under_cord', question.colours.get('under') ?? ''],
    ['upper_over_cord', question.colours.get('upper over') ?? ''],
    ['upper_under_cord', question.colours.get('upper under') ?? ''],
    ['woven_length_set', question.length],
    ['hitches', question.hitches],
    ['bar_diameter', question.bar],
    ['take_up_set', question.takeUp],
  ]);
  const colours = [...new Set([over, ...question.colours.values()])];
  const rates = [...question.rates].map(([name, value]) => `${name}: ${JSON.stringify(value)}`);
  const weaves = source.book.get('weaves.csv');
  return priceBook({
    ...source,
    book: new Map([
      [
        'book.yaml',
        [
          'currency: USD',
          `length_unit: ${question.unit}`,
          'wage_per_hour: 0',
          'bench_hours_per_month: 1',
          'wanted_margin_percent: 0',
          ...rates,
        ].join('\n'),
      ],
      [
        'materials.csv',
        csv([
          'material,sold_by,diameter,pack,pack_price',
          ...colours.map((colour) => [colour, 'length', question.diameter, '1', '0']),
        ]),
      ],
      ['products.csv', csv([[...product.keys()], [...product.values()]])],
      ['channels.csv', 'channel\nnone\n'],
      ...(weaves === undefined ? [] : [['weaves.csv', weaves] as const]),
    ]),
  });
}

function csv(rows: readonly (string | readonly string[])[]): string {
  const quoted = (cell: string): string => `"${cell.replaceAll('"', '""')}"`;
  return rows.map((row) => (typeof row === 'string' ? row : row.map(quoted).join(','))).join('\n');
}
