import { literal, type Parameters } from './emitter.ts';
import type { Texts } from './encoding.ts';
import type { Leaf, Slot } from './node.ts';
import type { Parameter } from './shape.ts';

/**
 * Where everything lies: one array of values (`s`: varied cells, calculated cells, and constants that stand among
 * cells), one table of places (`I`) and one of constants (`C`) for the parameters of loops.
 */
export class Layout {
  readonly texts: Texts;
  /** Constants that follow the cells in the array of values. */
  readonly constants: number[] = [];
  readonly places: number[] = [];
  readonly figures: number[] = [];
  readonly #cells: number;
  readonly #known = new Map<string, number>();

  /** @param cells how many varied and calculated cells there are */
  constructor(texts: Texts, cells: number) {
    this.texts = texts;
    this.#cells = cells;
  }

  /** Place of a leaf in the array of values; a constant gets one. */
  placeOf(leaf: Leaf): number {
    if (leaf.tag === 'cell') return leaf.slot.at;
    const value = this.#encoded(leaf);
    const id = `constant ${literal(value)}`;
    const known = this.#known.get(id);
    if (known !== undefined) return known;
    const place = this.#cells + this.constants.push(value) - 1;
    this.#known.set(id, place);
    return place;
  }

  #encoded(leaf: Leaf): number {
    return leaf.tag === 'cell' ? Number.NaN : this.texts.encode(leaf.value);
  }

  /** Parameters of the rows that share a shape, in order; in a loop the row at hand is `i`. */
  parameters(slots: readonly Slot[]): Parameters {
    const made = new Map<number, Found>();
    const find = (at: number): Found => {
      const before = made.get(at);
      if (before !== undefined) return before;
      const found = this.#find(slots.map((slot) => slot.leaves[at] ?? []));
      made.set(at, found);
      return found;
    };
    return {
      isSame: (at) => slots.length > 1 && find(at).isSame,
      leaf: (at) => find(at).text,
      list: (at) => {
        const { from, to } = find(at);
        return { from, to };
      },
    };
  }

  #find(each: readonly Parameter[]): Found {
    if (each.every(isList)) {
      const bounds = each.map((items) => this.#stretch(items));
      const from = this.#ofRow(bounds.map(([first]) => first));
      const to = this.#ofRow(bounds.map(([, last]) => last));
      const isSame = bounds.every(([first]) => first === bounds[0]?.[0]);
      return { text: '', from, to, isSame };
    }
    const leaves = each.filter((leaf): leaf is Leaf => !isList(leaf));
    return { ...this.#leaf(leaves), from: '', to: '' };
  }

  #leaf(leaves: readonly Leaf[]): { text: string; isSame: boolean } {
    if (leaves.every((leaf) => leaf.tag === 'constant')) {
      const values = leaves.map((leaf) => this.#encoded(leaf));
      const [first = Number.NaN] = values;
      if (values.every((value) => Object.is(value, first))) return { text: literal(first), isSame: true };
      return { text: `C[${this.#table(this.figures, values, 'figures')} + i]`, isSame: false };
    }
    const places = leaves.map((leaf) => this.placeOf(leaf));
    const [first = 0] = places;
    if (places.every((place) => place === first)) return { text: `s[${first}]`, isSame: true };
    if (places.every((place, row) => place === first + row))
      return { text: `s[${first} + i]`, isSame: false };
    return { text: `s[I[${this.#table(this.places, places, 'places')} + i]]`, isSame: false };
  }

  /** A number that each row has its own of. */
  #ofRow(values: readonly number[]): string {
    const [first = 0] = values;
    if (values.every((value) => value === first)) return String(first);
    return `I[${this.#table(this.places, values, 'places')} + i]`;
  }

  #stretch(items: readonly Leaf[]): [first: number, end: number] {
    const places = items.map((leaf) => this.placeOf(leaf));
    const first = this.#table(this.places, places, 'places');
    return [first, first + places.length];
  }

  /** Where these stand in a table; what stands there already is used again. */
  #table(table: number[], values: readonly number[], name: string): number {
    const id = `${name} ${values.map(literal).join(' ')}`;
    const known = this.#known.get(id);
    if (known !== undefined) return known;
    const first = table.length;
    for (const value of values) table.push(value);
    this.#known.set(id, first);
    return first;
  }
}

interface Found {
  readonly text: string;
  readonly from: string;
  readonly to: string;
  readonly isSame: boolean;
}

const isList = (parameter: Parameter): parameter is readonly Leaf[] => Array.isArray(parameter);
