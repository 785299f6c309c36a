import { sameKey } from '../../book/book.ts';
import type { PriceList } from './priceList.ts';

/**
 * Names that stand twice on a list with the same description, so that a customer cannot tell which is which: for the
 * maker, who can give one of them another name, another size or a description.
 */
export function listedAlike({ families }: PriceList): readonly string[] {
  return families.flatMap(({ products }) => {
    const seen = new Set<string>();
    const twice = products.filter(({ name, description }) => {
      const words = JSON.stringify([sameKey(name), sameKey(description)]);
      if (seen.has(words)) return true;
      seen.add(words);
      return false;
    });
    return [...new Set(twice.map(({ name }) => name))];
  });
}
