import { sameKey } from '../book/book.ts';
import { mendName } from '../book/nearest.ts';
import { type Problem, problem } from '../book/problem.ts';
import { readTable } from '../book/readTable.ts';
import type { TableSchema } from '../book/schema.ts';
import type { Values } from '../calc/values.ts';
import type { Plan } from '../sheets/plan.ts';
import { rowCount, textOf } from './supplies.ts';

/** What is to be made; each product once. */
export type Order = readonly { readonly product: string; readonly quantity: number }[];

/** A batch of more than this is a slip of the hand, and would take hours to plan. */
export const largestQuantity = 10_000;

const schema: TableSchema = {
  table: 'plan',
  key: [],
  needed: true,
  fields: [
    { id: 'product', kind: 'ref', required: true, of: 'products' },
    { id: 'quantity', kind: 'count', required: true, min: 0, max: largestQuantity },
  ],
};

/**
 * Reads a plan of what to make: a table with the columns product and quantity, like any table of the book.
 *
 * @param file how the maker calls it, for messages
 */
export function readOrder(
  file: string,
  source: string,
  plan: Plan,
  values: Values,
): { readonly order: Order; readonly problems: readonly Problem[] } {
  const { table, problems } = readTable(file, source, schema, plan.settings);
  const lines = Array.from({ length: table.rowCount }, (_, row) => ({
    product: String(table.columns.get('product')?.[row] ?? ''),
    quantity: Number(table.columns.get('quantity')?.[row] ?? 0),
    where: { ...(table.places[row] ?? { file }), column: 'product' },
  }));
  const known = productNames(plan, values);
  const unknown = lines
    .filter(({ product }) => product !== '' && !known.has(sameKey(product)))
    .map(({ product, where }) => {
      const { message, mend } = unknownProduct(product, plan, values);
      const accepted = 'a name from products, with its size where it has sizes';
      return problem('reference-unknown', where, message, { found: product, accepted, mend });
    });
  return { order: combined(lines, known), problems: [...problems, ...unknown] };
}

/** Adds up lines for the same product, under the name that the book gives it; strangers are left out. */
export function combined(
  lines: readonly { readonly product: string; readonly quantity: number }[],
  known: ReadonlyMap<string, string>,
): Order {
  const quantities = new Map<string, number>();
  for (const { product, quantity } of lines) {
    const name = known.get(sameKey(product));
    if (name !== undefined && quantity > 0) quantities.set(name, (quantities.get(name) ?? 0) + quantity);
  }
  return [...quantities].map(([product, quantity]) => ({ product, quantity }));
}

/** Names of the book's products by key. */
export function productNames(plan: Plan, values: Values): Map<string, string> {
  return new Map(
    Array.from({ length: rowCount(plan, 'products') }, (_, row) => {
      const product = textOf(values, 'products', 'product', row);
      return [sameKey(product), product];
    }),
  );
}

/** What to say of a name that is no product's: perhaps it comes in sizes, and one of them is meant. */
export function unknownProduct(
  product: string,
  plan: Plan,
  values: Values,
): { readonly message: string; readonly mend: string } {
  const rows = Array.from({ length: rowCount(plan, 'products') }, (_, row) => row);
  const sizes = rows
    .filter((row) => textOf(values, 'products', 'size_run', row) !== '')
    .map((row) => ({
      name: textOf(values, 'products', 'product', row),
      size: textOf(values, 'products', 'size', row),
    }))
    .filter(({ name, size }) => sameKey(name) === sameKey(`${product} ${size}`))
    .map(({ name }) => name);
  if (sizes.length > 0)
    return {
      message: `“${product}” comes in sizes, and one of them is needed here.`,
      mend: `Its sizes: ${sizes.join(', ')}.`,
    };
  return {
    message: `There is no product “${product}” in this book.`,
    mend: mendName(product, [...productNames(plan, values).values()]),
  };
}
