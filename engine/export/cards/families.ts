import { sameKey } from '../../book/book.ts';
import type { Values } from '../../calc/values.ts';
import type { Plan } from '../../sheets/plan.ts';
import { productCells } from './productCells.ts';

export interface ProductFamily {
  /** As the book writes it first. */
  readonly family: string;
  /** Keys of its products. */
  readonly products: readonly string[];
}

/** Families of products, by name without regard to capitals, in the order of the book. */
export function productFamilies(plan: Plan, values: Values): ReadonlyMap<string, ProductFamily> {
  const cells = productCells(plan, values);
  const keys = plan.sheets.find(({ id }) => id === 'products')?.columns.find(({ id }) => id === 'product');
  const families = new Map<string, ProductFamily>();
  for (const product of (keys?.inputs ?? []).map(String)) {
    const family = cells.text('products.family', product).trim();
    if (family === '') continue;
    const known = families.get(sameKey(family)) ?? { family, products: [] };
    families.set(sameKey(family), { ...known, products: [...known.products, product] });
  }
  return families;
}
