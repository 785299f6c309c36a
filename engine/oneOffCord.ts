import { parseYaml } from './book/files/yamlFile.ts';
import { hasErrors, type Problem } from './book/problems/problem.ts';
import { readTable } from './book/readTable.ts';
import { readSettings } from './book/settings.ts';
import { roundTo } from './money/rounding.ts';
import { type Priced, priceBook, type Source } from './priceBook.ts';
import { bookSchema } from './sheets/bookSchema.ts';
import { assemble } from './sheets/readDefinitions.ts';

/** A question about one piece: what a weave takes. Measures as text, in the book's own notation. */
export interface CordQuestion {
  readonly weave: string;
  readonly layers: string;
  readonly core: string;
  /** Woven length; blank where the piece closes round a measure. */
  readonly length: string;
  /** Body measure, ease and what hardware takes of the length; blank where the woven length is given. */
  readonly measure: string;
  readonly ease: string;
  readonly hardware: string;
  readonly diameter: string;
  /** Colours by role (`core`, `over`, `under`, `upper over`, `upper under`, `stripe`, `band`); `over` must be there. */
  readonly colours: ReadonlyMap<string, string>;
  readonly hitches: string;
  readonly bar: string;
  readonly takeUp: string;
  /** Of the finished piece; blank for the weave's own. */
  readonly thickness: string;
  /** Length unit of the answer. */
  readonly unit: 'in' | 'cm' | 'mm';
  /** Lines of `book.yaml` to set: cutting step, spare, trim. */
  readonly rates: ReadonlyMap<string, string>;
}

/** What a question for one piece takes where nothing is said. */
export const cordDefaults = {
  weave: 'bar',
  layers: '1',
  diameter: '4 mm',
  /** Of every cord. */
  colour: 'cord',
  hitches: '0',
  bar: '4 mm',
} as const;

/**
 * Answers a one-off cord question through the very sheets that price a book: a book with one product is made
 * and calculated. Costs in it are zero and not to be read.
 *
 * @param source shipped sheets (with the one-off ones) and tables; its `book` may bring a `weaves.csv` and a `families.csv`
 */
export function oneOffCord(question: CordQuestion, source: Source): Priced {
  // Colours are anyone's words, keys are not: each colour gets a plain key, and is told by its name.
  const colours = [...new Set([question.colours.get('over') ?? 'cord', ...question.colours.values()])];
  const keyOf = (role: string): string => {
    const colour = question.colours.get(role);
    return colour === undefined ? '' : colourKey(colours.indexOf(colour));
  };
  const product = new Map([
    ['product', 'piece'],
    ['weave', question.weave],
    ['layers', question.layers],
    ['core_strands', question.core],
    ['over_cord', colourKey(0)],
    ['core_cord', keyOf('core')],
    ['under_cord', keyOf('under')],
    ['upper_over_cord', keyOf('upper over')],
    ['upper_under_cord', keyOf('upper under')],
    ['stripe_cord', keyOf('stripe')],
    ['band_cord', keyOf('band')],
    ['woven_length_set', question.length],
    ['measure', question.measure],
    ['ease', question.ease],
    ['hardware_length', question.hardware],
    ['hitches', question.hitches],
    ['bar_diameter', question.bar],
    ['take_up_set', question.takeUp],
    ['thickness_set', question.thickness],
  ]);
  const rates = [...question.rates].map(([name, value]) => `${name}: ${JSON.stringify(value)}`);
  const weaves = ownWeaves(source);
  if (hasErrors(weaves.problems)) return { problems: weaves.problems };
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
          'material,colour,sold_by,diameter,pack,pack_price',
          ...colours.map((colour, at) => [colourKey(at), colour, 'length', question.diameter, '1', '0']),
        ]),
      ],
      ['products.csv', csv([[...product.keys()], [...product.values()]])],
      ['channels.csv', 'channel\nnone\n'],
      // Nothing is asked about work, so nothing may be missing in it.
      ['work.csv', 'for,step,minutes_per_piece\npiece,tie,1\n'],
      ...weaves.files,
    ]),
  });
}

const colourKey = (at: number): string => `cord ${at + 1}`;

/** Tables of a named book that the question is asked with. */
const ownTables = ['families', 'weaves'] as const;

/**
 * The weaves and families of the book that was named, read in the book's own notation and written again in the
 * plain one of the question: 4,567 of a comma book must not become four thousand.
 */
function ownWeaves(source: Source): { files: [string, string][]; problems: readonly Problem[] } {
  const { tables } = bookSchema(assemble(source.sheets).definitions);
  const { settings } = readSettings(parseYaml('book.yaml', source.book.get('book.yaml') ?? ''));
  const files: [string, string][] = [];
  const found: Problem[] = [];
  for (const name of ownTables) {
    const file = `${name}.csv`;
    const text = source.book.get(file);
    const schema = tables.find(({ table }) => table === name);
    if (text === undefined || schema === undefined) continue;
    const { table, problems } = readTable(file, text, schema, settings);
    found.push(...problems);
    const columns = [...table.columns];
    const percents = new Set(schema.fields.filter(({ kind }) => kind === 'percent').map(({ id }) => id));
    const rows = Array.from({ length: table.rowCount }, (_, row) =>
      columns.map(([id, values]) => {
        const value = values[row] ?? '';
        // Per cents are held as shares; a table says them as per cents.
        return typeof value === 'number' && percents.has(id)
          ? `${roundTo(value * 100, 10)} %`
          : String(value);
      }),
    );
    files.push([file, csv([columns.map(([id]) => id), ...rows])]);
  }
  return { files, problems: found };
}

function csv(rows: readonly (string | readonly string[])[]): string {
  const quoted = (cell: string): string => `"${cell.replaceAll('"', '""')}"`;
  return rows.map((row) => (typeof row === 'string' ? row : row.map(quoted).join(','))).join('\n');
}
