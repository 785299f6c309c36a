import { type Book, sameKey } from '../book/book.ts';
import { mendName } from '../book/problems/nearest.ts';
import type { Values } from '../calc/values.ts';
import type { Plan } from '../sheets/plan.ts';
import { rowCount, textOf } from './supplies.ts';

/** A line of what is to be made. */
export interface OrderLine {
  readonly product: string;
  readonly quantity: number;
  /** Left out where there is none. */
  readonly remark?: string;
}

/** What is to be made; each product once. */
export type Order = readonly OrderLine[];

/** A batch of more than this is a slip of the hand, and would take hours to plan. */
export const largestQuantity = 10_000;

/** The lines of the book's table `make`, as they stand there. */
export function linesToMake(book: Book): OrderLine[] {
  const table = book.tables.get('make');
  return Array.from({ length: table?.rowCount ?? 0 }, (_, row) => {
    const cell = (column: string) => table?.columns.get(column)?.[row] ?? null;
    const remark = cell('remark');
    return {
      product: String(cell('product') ?? ''),
      quantity: Number(cell('quantity') ?? 0),
      ...(remark === null ? {} : { remark: String(remark) }),
    };
  });
}

/** Adds up lines for the same product, under the name that the book gives it; strangers are left out. */
export function combined(lines: readonly OrderLine[], known: ReadonlyMap<string, string>): Order {
  const found = new Map<string, { quantity: number; remarks: Set<string> }>();
  for (const { product, quantity, remark } of lines) {
    const name = known.get(sameKey(product));
    if (name === undefined || quantity <= 0) continue;
    const line = found.get(name) ?? { quantity: 0, remarks: new Set<string>() };
    line.quantity += quantity;
    if (remark !== undefined) line.remarks.add(remark);
    found.set(name, line);
  }
  return [...found].map(([product, { quantity, remarks }]) => ({
    product,
    quantity,
    ...(remarks.size === 0 ? {} : { remark: [...remarks].join('; ') }),
  }));
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
