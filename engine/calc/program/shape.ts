import { factsOf, isLeaf, type Leaf, type Node } from './node.ts';

/**
 * A formula with its leaves taken out: cells of a column that have the same shape run in one loop, with the
 * leaves as parameters.
 */
export type Shape = LeafShape | ListShape | OperationShape;

export interface LeafShape {
  readonly tag: 'leaf';
  /** Which parameter it is. */
  readonly at: number;
  /** Set of `kind`. */
  readonly kinds: number;
}

/** A long stretch of cells, as one parameter. */
export interface ListShape {
  readonly tag: 'list';
  readonly at: number;
}

export interface OperationShape {
  readonly tag: 'operation';
  readonly name: string;
  readonly args: readonly Shape[];
  readonly kinds: number;
  readonly sure: boolean;
  /** Parameters that it takes, itself and within. */
  readonly leaves: readonly number[];
}

/** A parameter of one row: a leaf, or the leaves of a list. */
export type Parameter = Leaf | readonly Leaf[];

/**
 * Takes a formula apart.
 *
 * @returns its shape, a text that is the same for formulas of the same shape, and its parameters in order
 */
export function takeApart(node: Node): { shape: Shape; key: string; parameters: Parameter[] } {
  const parameters: Parameter[] = [];
  const seen = new Map<Node, { at: number; shape: Shape }>();
  let key = '';
  const visit = (each: Node): Shape => {
    if (isLeaf(each)) {
      const { kinds } = factsOf(each);
      key += `${kinds} `;
      return { tag: 'leaf', at: parameters.push(each) - 1, kinds };
    }
    if (each.tag === 'list') {
      key += '* ';
      return { tag: 'list', at: parameters.push(each.items.filter(isLeaf)) - 1 };
    }
    // What is asked twice (the subject of SWITCH) is worked out once, and so it must be in every row alike.
    const before = seen.get(each);
    if (before !== undefined) {
      key += `#${before.at} `;
      return before.shape;
    }
    const { kinds, sure } = each.facts;
    key += `${each.name} ${kinds}${sure ? '!' : ''}(`;
    const first = parameters.length;
    const args = each.args.map(visit);
    key += ')';
    const within = args.flatMap((arg) => (arg.tag === 'operation' ? arg.leaves : [arg.at]));
    const own = Array.from({ length: parameters.length - first }, (_, at) => first + at);
    const leaves = [...new Set([...own, ...within])];
    const shape: Shape = { tag: 'operation', name: each.name, args, kinds, sure, leaves };
    seen.set(each, { at: seen.size, shape });
    return shape;
  };
  const shape = visit(node);
  return { shape, key, parameters };
}
