import { type Book, sameKey } from '../book/book.ts';
import type { Place, Problem } from '../book/problems/problem.ts';
import type { TableSchema } from '../book/schema.ts';
import type { Comparison } from './compare/comparison.ts';
import { keyOf } from './compare/sameValue.ts';

/** More places than these are counted. */
const mostPlaces = 8;

/** Names that lead nowhere: each once, with every cell of the workbook that uses it, and why it is gone. */
export function tellUnknown(
  names: readonly Problem[],
  comparison: Comparison,
  book: Book | undefined,
  placeOf: (place: Place) => Place | undefined,
): Problem[] {
  return names.map((first) => {
    const uses = usesOf(first.found);
    const [place = first.where] = uses.map((each) => each.place);
    const used = listed(uses.map(({ text }) => text));
    const removed = comparison.removed.find(({ row }) => keyOf([row]) === keyOf([first.found]));
    if (removed === undefined) {
      const what = /^.*? is not in [\w ]+\.|^.*?needed here\./s.exec(first.message)?.[0] ?? first.message;
      return { ...first, where: place, message: uses.length > 1 ? `${what} It stands in ${used}.` : what };
    }
    return {
      ...first,
      where: place,
      message: `“${first.found}” is still used in ${used}, and has no row because you removed it from the sheet ${removed.where.sheet}.`,
      mend: 'Take the row back (undo, or write it into an empty line again); or write another name into those cells, or remove their rows, as well.',
    };
  });

  function usesOf(name: string): { place: Place; text: string }[] {
    const found = new Map<string, { place: Place; text: string }>();
    for (const [id, table] of book?.tables ?? []) {
      const schema = comparison.fields.table(`${id}.csv`);
      // No price depends on what happened, so that a name there may stay.
      if (schema === undefined || schema.apart === true) continue;
      for (const column of namingColumns(schema)) {
        (table.columns.get(column) ?? []).forEach((value, row) => {
          if (value === null || sameKey(String(value)) !== sameKey(name)) return;
          const own = table.places[row];
          if (own === undefined) return;
          const place = placeOf({ ...own, column });
          const owner = table.columns.get(schema.belongs?.column ?? schema.key[0] ?? '')?.[row] ?? null;
          const words = owner === null || sameKey(String(owner)) === sameKey(name) ? '' : ` (${owner})`;
          const cell = place === undefined ? `${own.file}, row ${own.row}` : `${place.sheet}!${place.cell}`;
          if (!found.has(cell)) found.set(cell, { place: place ?? own, text: `${cell}${words}` });
        });
      }
    }
    return [...found.values()];
  }
}

/** Columns whose cells name a row of another table. */
function namingColumns({ fields, belongs }: TableSchema): string[] {
  const named = fields.flatMap(({ id, of }) => (of === undefined ? [] : [id]));
  return belongs === undefined ? named : [...new Set([...named, belongs.column])];
}

function listed(texts: readonly string[]): string {
  const some = texts.slice(0, mostPlaces);
  const more = texts.length - some.length;
  return more > 0 ? `${some.join(', ')} and ${more} more` : some.join(', ');
}
