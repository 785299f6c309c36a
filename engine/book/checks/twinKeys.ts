import { alikeKey, type BookValue, joinKeys, sameKey, type Table } from '../book.ts';
import { dayText } from '../measures/day.ts';
import { type Place, type Problem, problem } from '../problems/problem.ts';
import type { TableReading } from '../readTable.ts';
import { placeOf } from '../rowPlace.ts';
import type { TableSchema } from '../schema.ts';

/** Rows that have no key, or the key of another row. */
export function twinKeys({ table, present, problems: told }: TableReading, schema: TableSchema): Problem[] {
  const problems: Problem[] = [];
  if (schema.key.length === 0 || schema.key.some((id) => !present.has(id))) return problems;
  // A cell that could not be read stands as blank, and has been told.
  const unread = new Set(told.map(({ where }) => cellName(where, where.column)));
  const first = new Map<string, number>();
  for (let row = 0; row < table.rowCount; row += 1) {
    const cells = schema.key.map((id) => plainFigure(table.columns.get(id)?.[row]));
    const place = placeOf(table, row);
    const blank = schema.key.find((_, index) => cells[index] === null);
    if (blank !== undefined) {
      // A required column has reported its own blanks.
      const isTold =
        schema.fields.find((field) => field.id === blank)?.required === true ||
        unread.has(cellName(place, blank));
      if (!isTold) {
        problems.push(
          problem('cell-missing', { ...place, column: blank }, `This row has no ${blank} to be known by.`, {
            accepted: `a ${blank} of its own`,
            mend: 'Name the row, or remove it.',
          }),
        );
      }
      continue;
    }
    const joined = alikeKey(joinKeys(cells));
    const earlier = first.get(joined);
    if (earlier === undefined) {
      first.set(joined, row);
      continue;
    }
    const shown = shownKey(table, schema, row);
    const other = shownKey(table, schema, earlier);
    const alike =
      sameKey(shown) === sameKey(other)
        ? ''
        : `, as “${other}”: spreadsheet programs cannot tell the two apart`;
    problems.push(
      problem(
        'key-twice',
        { ...place, column: schema.key.join(', ') },
        `“${shown}” stands in row ${table.places[earlier]?.row ?? '?'} already${alike}.`,
        {
          found: shown,
          accepted: `each ${schema.key.join(' and ')} once, capitals aside`,
          mend: 'Rename or remove one of the two rows.',
        },
      ),
    );
  }
  return problems;
}

/** A key as its row is written: days as days. */
function shownKey(table: Table, schema: TableSchema, row: number): string {
  const isDay = (id: string): boolean =>
    schema.fields.some((field) => field.id === id && field.kind === 'date');
  return schema.key
    .map((id) => {
      const value = plainFigure(table.columns.get(id)?.[row]);
      return typeof value === 'number' && isDay(id) ? dayText(value) : value;
    })
    .join(', ');
}

function cellName({ file, row }: Place, column: string | undefined): string {
  return [file, row, column].join('|');
}

/** A figure without the dust of unit conversion: 12 ft and 3.6576 m are one length. */
function plainFigure(value: BookValue | undefined): BookValue {
  return typeof value === 'number' ? Number(value.toPrecision(12)) : (value ?? null);
}
