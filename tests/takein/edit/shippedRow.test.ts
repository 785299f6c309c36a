import { expect, it } from 'vitest';
import { parseCsv } from '../../../engine/book/files/csvFile.ts';
import type { Problem } from '../../../engine/book/problems/problem.ts';
import { readField } from '../../../engine/book/readField.ts';
import type { FieldSchema } from '../../../engine/book/schema.ts';
import { bookSchema } from '../../../engine/sheets/bookSchema.ts';
import { assemble } from '../../../engine/sheets/readDefinitions.ts';
import { shippedRow } from '../../../engine/takein/edit/shippedRow.ts';
import { Fields } from '../../../engine/takein/fields.ts';
import { shipped } from '../../support/books.ts';
import { metric } from '../../support/settings.ts';

const fields = new Fields(bookSchema(assemble(shipped.sheets).definitions));

function readAs(text: string, field: FieldSchema, decimal: 'point' | 'comma'): unknown {
  const problems: Problem[] = [];
  const { value } = readField(text, field, { ...metric, decimal }, { file: 'row' }, problems);
  expect(problems.map(({ message }) => message)).toEqual([]);
  return value;
}

it('every row that comes with Sennit reads alike when it is copied into a book of decimal commas', () => {
  let figures = 0;
  for (const [file, text] of shipped.tables) {
    if (fields.table(file) === undefined) continue;
    const field = (column: string): FieldSchema | undefined => fields.field(file, column);
    const { headings, rows } = parseCsv(file, text);
    for (const { row, cells } of rows) {
      const copied = shippedRow(file, text, row, field, { ...metric, decimal: 'comma' });
      headings.forEach(({ id }, at) => {
        const own = field(id);
        if (own === undefined || (cells[at] ?? '') === '') return;
        const value = readAs(cells[at] ?? '', own, 'point');
        expect(readAs(copied.get(id) ?? '', own, 'comma'), `${file}, row ${row}, ${id}`).toEqual(value);
        if (typeof value === 'number') figures += 1;
      });
    }
  }
  expect(figures).toBeGreaterThan(100);
  const type = shippedRow(
    'a.csv',
    'k,w\nIA,"1,050.5 ft/lb"\n',
    2,
    () => ({ kind: 'weight' }) as FieldSchema,
    {
      ...metric,
      decimal: 'comma',
    },
  );
  expect(type.get('w')).toBe('1.050,5 ft/lb');
});
