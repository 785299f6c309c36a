import type { Book, BookValue } from '../../engine/book/book.ts';
import { compile } from '../../engine/sheets/compile.ts';
import type { Plan } from '../../engine/sheets/plan.ts';
import { readDefinitions } from '../../engine/sheets/readDefinitions.ts';
import { imperial } from '../support/settings.ts';

/** Formula columns of the model, in the manner of the shipped sheets; the last ones repeat with other shares. */
const formulas: readonly string[] = [
  'length * take_up',
  'f1 + 12.25',
  'CEILING(f2, 1)',
  'f3 / 12',
  'f4 * rates[1].cord_price',
  'f4 - f1 / 12',
  'f6 * rates[1].cord_price',
  'f5 + parts_cost',
  'minutes + length * 0.75',
  'f9 / 60',
  'f10 * rates[1].wage',
  'f10 * rates[1].overhead',
  'f8 + f11 + f12',
  'IF(length > 24, 0.35, 0.3)',
  'MAX(0, f13 + 1.2) / (1 - 0.08 - f14)',
  'ROUNDUP(ROUND(f15, 9), 2)',
  'CEILING(MAX(0, f16 - 0.95), 1) + 0.95',
  'ROUND(f17 * (1 - 0.1), 2)',
  'ROUND(f18 * 0.06 / 1.06, 2)',
  'f18 - f19',
  'f20 * 0.05 + f18 * 0.029 + 0.3',
  'f20 - f21 - f13',
  'IF(f20 > 0, f22 / f20, 0)',
  'IF(f20 - f22 > 0, f22 / (f20 - f22), 0)',
  'f20 - f21 - f8 - f11',
  'IF(f10 > 0, f25 / f10, 0)',
  'IF(f23 < 0.2, "thin", "well")',
  'SUM(f8, f11, f12) - f13',
  'AND(f17 >= f13, f23 > 0)',
  'IF(f29, f17, f17 + 1)',
];

/** How many formula columns a product of the model has. */
export const modelColumns: number = formulas.length;

function table(name: string, columns: Readonly<Record<string, BookValue[]>>): Book['tables'] {
  const rowCount = Object.values(columns)[0]?.length ?? 0;
  return new Map([[name, { name, rowCount, columns: new Map(Object.entries(columns)), places: [] }]]);
}

/** So many products with thirty formula columns each, and one row of rates that all refer to. */
export function modelPlan(products: number): Plan {
  const each = <Made>(make: (at: number) => Made): Made[] =>
    Array.from({ length: products }, (_, at) => make(at));
  const input = (id: string): unknown => ({ id, heading: id, kind: 'number' });
  const sheet = (name: string, key: string, columns: readonly unknown[]): string =>
    JSON.stringify({
      ...{ sheet: name, title: name, answers: 'What a model is made of.', rows: { table: name }, key },
      columns: [{ id: key, heading: key, kind: 'key' }, ...columns],
    });
  const { definitions, problems } = readDefinitions(
    new Map([
      ['rates.yaml', sheet('rates', 'set', ['wage', 'overhead', 'cord_price'].map(input))],
      [
        'items.yaml',
        sheet('items', 'item', [
          ...['length', 'take_up', 'minutes', 'parts_cost'].map(input),
          ...formulas.map((formula, at) => ({
            ...{ id: `f${at + 1}`, heading: `Figure ${at + 1}`, kind: 'number' },
            formula: formula.replaceAll('rates[1]', 'rates["now"]'),
          })),
        ]),
      ],
    ]),
  );
  const book: Book = {
    settings: imperial,
    record: new Map(),
    tables: new Map([
      ...table('rates', { set: ['now'], wage: [22], overhead: [6.5], cord_price: [0.11] }),
      ...table('items', {
        item: each((at) => `item ${at}`),
        length: each((at) => 4 + (at % 60) / 2),
        take_up: each((at) => 4 + (at % 17) / 10),
        minutes: each((at) => 6 + (at % 23)),
        parts_cost: each((at) => (at % 31) / 10),
      }),
    ]),
  };
  const { plan, problems: more } = compile(definitions, book);
  const [first] = [...problems, ...more];
  if (first !== undefined) throw new Error(first.message);
  return plan;
}
