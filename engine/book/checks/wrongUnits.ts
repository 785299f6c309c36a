import { type BookValue, sameKey } from '../book.ts';
import { type Place, type Problem, problem } from '../problems/problem.ts';
import type { TableReading } from '../readTable.ts';
import { placeOf } from '../rowPlace.ts';
import type { FieldSchema } from '../schema.ts';

/** The weight of a length, such as 6.6 g/m, for something that is sold by the piece: nobody knows how long a piece is. */
export function weightsOfLengths({ table, withUnit }: TableReading, field: FieldSchema): Problem[] {
  const soldBy = table.columns.get('sold_by');
  return [...(withUnit.get(field.id) ?? [])].flatMap(([row, unit]) =>
    unit !== 'by length' || soldBy?.[row] !== 'piece'
      ? []
      : [
          problem(
            'wrong-unit',
            { ...placeOf(table, row), column: field.id },
            'This is sold by the piece, and its weight is given for a length.',
            {
              accepted: 'the weight of one piece, such as 12 g',
              mend: 'Write what one piece weighs, or set sold_by to length.',
            },
          ),
        ],
  );
}

/** A length of something sold by the piece, or pieces of something sold by length: a slip. */
export function wrongUnits(
  reading: TableReading,
  field: FieldSchema,
  readings: ReadonlyMap<string, TableReading>,
): Problem[] {
  const materials = readings.get('materials')?.table;
  const soldBy = materials?.columns.get('sold_by');
  const keys = materials?.columns.get('material');
  if (soldBy === undefined || keys === undefined) return [];
  const finished = readings.get('products')?.table.columns.get('product') ?? [];
  const way = new Map<string, BookValue | undefined>([
    ...finished.map((key) => [sameKey(String(key)), 'piece'] as const),
    ...keys.map((key, row) => [sameKey(String(key)), soldBy[row]] as const),
  ]);
  const named = reading.table.columns.get(field.measuredBy ?? 'material') ?? [];
  const problems: Problem[] = [];
  // A row that stands for several sizes is told once.
  const told = new Set<Place>();
  for (const [row, unit] of reading.withUnit.get(field.id) ?? []) {
    const soldAs = named[row] === null ? undefined : way.get(sameKey(String(named[row])));
    const byPiece = soldAs === 'piece';
    if ((!byPiece && soldAs !== 'length') || byPiece === (unit === 'pieces')) continue;
    const place = placeOf(reading.table, row);
    if (told.has(place)) continue;
    told.add(place);
    problems.push(
      problem(
        'wrong-unit',
        { ...place, column: field.id },
        byPiece
          ? `“${named[row]}” is sold by the piece, and this is a length.`
          : `“${named[row]}” is sold by length, and these are pieces.`,
        byPiece
          ? {
              accepted: 'a number of pieces, such as 1 or 100',
              mend: 'Write how many, or set sold_by to length in materials.',
            }
          : {
              accepted: 'a length, such as 100 ft or 30 m',
              mend: 'Write how long it is, or set sold_by to piece in materials.',
            },
      ),
    );
  }
  return problems;
}
