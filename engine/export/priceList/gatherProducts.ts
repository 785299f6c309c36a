import { sameKey } from '../../book/book.ts';
import type { ListedFamily, ListedPrice, ListedProduct, ListedSize } from './priceList.ts';

/** One product of the book, in one size, with what a list says of it. */
export interface SoldProduct extends Omit<ListedPrice, 'sizes'> {
  readonly family: string;
  readonly name: string;
  readonly description: string;
  readonly size: ListedSize;
}

/** What stands over products that have no family, where others have one. */
const noFamily = 'Other pieces';

/**
 * Gathers products by family, and what is one thing in several sizes into one entry. Families and entries stand
 * where the book has their first product; sizes keep their order, and only neighbours share a price.
 */
export function gatherProducts(sold: readonly SoldProduct[]): readonly ListedFamily[] {
  const families = new Map<string, { family: string; groups: SoldProduct[][] }>();
  /** Groups of one name and description in a family: more than one only where a size stands twice. */
  const alike = new Map<string, SoldProduct[][]>();
  for (const product of sold) {
    const known = families.get(sameKey(product.family)) ?? { family: product.family, groups: [] };
    families.set(sameKey(product.family), known);
    const words = JSON.stringify([sameKey(product.family), sameKey(product.name), product.description]);
    const candidates = alike.get(words) ?? [];
    alike.set(words, candidates);
    const group = candidates.find((each) => hasRoomFor(each, product));
    if (group !== undefined) {
      group.push(product);
      continue;
    }
    const fresh = [product];
    candidates.push(fresh);
    known.groups.push(fresh);
  }
  return [...families.values()].map(({ family, groups }) => ({
    family: family === '' && families.size > 1 ? noFamily : family,
    products: groups.map(entry),
  }));
}

/** Each size once: two things that only the maker can tell apart stay two. */
function hasRoomFor(group: readonly SoldProduct[], { size: own }: SoldProduct): boolean {
  return (
    own.size !== '' && group.every(({ size }) => size.size !== '' && sameKey(size.size) !== sameKey(own.size))
  );
}

function entry(group: readonly SoldProduct[]): ListedProduct {
  const prices: ListedPrice[] = [];
  for (const { size, listPrice, price, breakPrices } of group) {
    const last = prices.at(-1);
    if (last !== undefined && costsTheSame(last, { listPrice, price, breakPrices })) {
      prices[prices.length - 1] = { ...last, sizes: [...last.sizes, size] };
    } else {
      prices.push({ sizes: [size], listPrice, price, breakPrices });
    }
  }
  const [first] = group;
  return { name: first?.name ?? '', description: first?.description ?? '', prices };
}

function costsTheSame(one: Omit<ListedPrice, 'sizes'>, other: Omit<ListedPrice, 'sizes'>): boolean {
  return (
    one.listPrice === other.listPrice &&
    one.price === other.price &&
    one.breakPrices.every((price, at) => price === other.breakPrices[at])
  );
}
