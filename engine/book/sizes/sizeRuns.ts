import { sameKey } from '../book.ts';
import type { Problem } from '../problems/problem.ts';
import type { TableReading } from '../readTable.ts';
import type { TableSchema } from '../schema.ts';
import { type SizesOf, sizedProducts } from './sizedProducts.ts';
import { sizedRows } from './sizedRows.ts';

/**
 * Lays out size runs: a product row that names a `size_run` becomes one row a size, called
 * "<product> <size>", and rows of other tables that name such a product become one row a size, unless the
 * size has a row of the same key itself. Everything after this sees plain rows; their places are still those
 * of the maker's rows.
 *
 * @returns all tables, what is wrong with the runs, and the products that stand for their sizes
 */
export function sizeRuns(
  readings: ReadonlyMap<string, TableReading>,
  schemas: readonly TableSchema[],
): { readings: ReadonlyMap<string, TableReading>; problems: Problem[]; sizesOf: SizesOf } {
  const products = readings.get('products');
  const schema = schemas.find(({ table }) => table === 'products');
  const runs = products?.table.columns.get('size_run') ?? [];
  if (products === undefined || schema === undefined || runs.every((run) => run === null))
    return { readings, problems: [], sizesOf: new Map() };
  const problems: Problem[] = [];
  const { reading, sizesOf } = sizedProducts(products, schema, readings.get('sizes'), problems);
  const hasKey = (table: string, name: string): boolean => {
    const key = schemas.find((each) => each.table === table)?.key[0] ?? '';
    const names = readings.get(table)?.table.columns.get(key) ?? [];
    return names.some((each) => each !== null && sameKey(String(each)) === sameKey(name));
  };
  const sized = new Map(readings);
  sized.set('products', reading);
  for (const each of schemas) {
    const own = readings.get(each.table);
    if (each.eachSize === true && own !== undefined)
      sized.set(each.table, sizedRows(own, each, sizesOf, hasKey, problems));
  }
  return { readings: sized, problems, sizesOf };
}
