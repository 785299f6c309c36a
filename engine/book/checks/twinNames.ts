import { joinKeys, sameKey, type Table } from '../book.ts';
import { type Problem, problem } from '../problems/problem.ts';
import type { TableSchema } from '../schema.ts';

/** Rows that differ in what their name is put together of, and read alike: “a” and “b c”, “a b” and “c”. */
export function twinNames(table: Table, schema: TableSchema): Problem[] {
  return (schema.joined ?? [])
    .filter(({ from }) => schema.key.every((id) => from.includes(id)))
    .flatMap(({ id, from }) => {
      const first = new Map<string, number>();
      return (table.columns.get(id) ?? []).flatMap((name, row) => {
        if (name === null) return [];
        const parts = joinKeys(from.map((each) => table.columns.get(each)?.[row]));
        const earlier = first.get(sameKey(String(name)));
        if (earlier === undefined) first.set(sameKey(String(name)), row);
        // What is alike in its parts as well has been told.
        if (
          earlier === undefined ||
          parts === joinKeys(from.map((each) => table.columns.get(each)?.[earlier]))
        )
          return [];
        return [
          problem(
            'key-twice',
            { ...table.places[row]!, column: from.join(', ') },
            `Together these read “${name}”, as those of row ${table.places[earlier]!.row} do.`,
            {
              found: String(name),
              accepted: `${from.join(' and ')} that read otherwise when they stand side by side`,
              mend: 'Rename one of them.',
            },
          ),
        ];
      });
    });
}
