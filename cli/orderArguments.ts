import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import {
  combined,
  hasErrors,
  largestQuantity,
  mendName,
  type Order,
  type Plan,
  type Problem,
  productNames,
  readOrder,
  type Values,
} from '../engine/index.ts';
import { reading } from './hindered.ts';
import { Hindrance, type Io } from './io.ts';

/** What is to be made, and what is wrong with the table that says so. */
export interface AskedOrder {
  readonly order: Order;
  readonly problems: readonly Problem[];
}

/**
 * What is to be made, from arguments such as "wrist medium=24" and from a table of products and quantities. It
 * may come to nothing. Throws a hindrance where an argument cannot be understood.
 */
export function orderOf(
  io: Io,
  given: readonly string[],
  file: string | undefined,
  plan: Plan,
  values: Values,
): AskedOrder {
  const known = productNames(plan, values);
  const asked = given.map((text) => quantityOf(text, known));
  const read =
    file === undefined
      ? { order: [], problems: [] }
      : readOrder(
          file,
          reading(file, () => readFileSync(resolve(io.folder, file), 'utf8')),
          plan,
          values,
        );
  const order = combined([...read.order, ...asked], known);
  if (file !== undefined && order.length === 0 && !hasErrors(read.problems)) {
    throw new Hindrance(
      `${file} asks for nothing to be made.\n  Give it the headings product and quantity, and rows with a quantity above 0.`,
      2,
    );
  }
  const [tooMany] = order.filter(({ quantity }) => quantity > largestQuantity);
  if (tooMany !== undefined)
    throw new Hindrance(
      `${tooMany.quantity} of ${tooMany.product} are more than ${largestQuantity} of one product.\n  Plan them in batches.`,
      2,
    );
  return { order, problems: read.problems };
}

function quantityOf(
  text: string,
  known: ReadonlyMap<string, string>,
): { readonly product: string; readonly quantity: number } {
  const [, name = '', count = ''] = /^(.*)=\s*(\d+)\s*$/.exec(text) ?? [];
  const product = name.trim();
  if (product === '')
    throw new Hindrance(
      `“${text}” is not a product and a whole number.\n  Write it as "wrist medium=24".`,
      2,
    );
  if (!known.has(product.toLowerCase())) {
    throw new Hindrance(
      `There is no product “${product}” in this book.\n  ${mendName(product, [...known.values()])}`,
      2,
    );
  }
  return { product, quantity: Number(count) };
}
