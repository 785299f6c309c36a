import { type BookValue, joinKeys, sameKey } from '../book.ts';
import { mostSizedRows } from '../limits.ts';
import { type Place, type Problem, problem } from '../problems/problem.ts';
import type { TableReading } from '../readTable.ts';
import type { TableSchema } from '../schema.ts';
import { type Pick, pickRows } from './pickRows.ts';
import { type SizesOf, tooManySizes } from './sizedProducts.ts';

/**
 * Rows of a table that says something of products: one that names a product with sizes says it of each of them,
 * unless the size has a row of the same key itself.
 *
 * @param hasKey whether a table has a row of that name
 */
export function sizedRows(
  own: TableReading,
  schema: TableSchema,
  sizesOf: SizesOf,
  hasKey: (table: string, name: string) => boolean,
  problems: Problem[],
): TableReading {
  const owners = schema.belongs?.to.includes('products') === true ? schema.belongs.to : ['products'];
  const column =
    schema.belongs?.to.includes('products') === true
      ? schema.belongs.column
      : schema.fields.find(({ of }) => of === 'products')?.id;
  if (column === undefined) return own;
  const { table } = own;
  const named = table.columns.get(column) ?? [];
  const keyOf = (row: number, product: BookValue | undefined): string =>
    joinKeys(schema.key.map((id) => (id === column ? product : table.columns.get(id)?.[row])));
  const written = new Set(named.map((product, row) => keyOf(row, product)));
  const picks: Pick[] = [];
  let isFull = false;
  const told = new Set<string>();
  for (let row = 0; row < table.rowCount; row += 1) {
    const name = named[row] ?? null;
    const sizes = name === null ? undefined : sizesOf.get(sameKey(String(name)));
    if (sizes === undefined) {
      picks.push({ row });
      continue;
    }
    const others = owners.filter((owner) => owner !== 'products' && hasKey(owner, sizes.product));
    if (others.length > 0) {
      if (!told.has(sizes.product)) {
        problems.push(
          twoOwners(sizes.product, others, {
            ...table.places[row]!,
            column,
          }),
        );
      }
      told.add(sizes.product);
      picks.push({ row });
      continue;
    }
    if (picks.length + sizes.names.length > mostSizedRows) {
      if (!isFull) problems.push(tooManySizes(table.places[row]!));
      isFull = true;
      continue;
    }
    for (const size of sizes.names) {
      // Without a key nothing can be replaced: both rows count.
      if (schema.key.includes(column) && written.has(keyOf(row, size))) continue;
      picks.push({ row, cells: new Map([[column, size]]) });
    }
  }
  return pickRows(own, picks);
}

function twoOwners(product: string, others: readonly string[], place: Place): Problem {
  return problem(
    'key-twice',
    place,
    `“${product}” is in products (with a size run) and in ${others.join(' and in ')}, so this row would count for both.`,
    {
      found: product,
      accepted: 'names that only one of the two tables has',
      mend: 'Rename one of the two.',
    },
  );
}
