import { failure } from '../compiled/scalar.ts';
import { isFailure, type Result } from '../values.ts';

/** What a value may be, as bits of a set; failures other than #N/A are always possible. */
export const kind: Readonly<Record<'number' | 'truth' | 'text' | 'blank' | 'missing', number>> =
  Object.freeze({ number: 1, truth: 2, text: 4, blank: 8, missing: 16 });

/** What is known of a value that varies. */
export interface Facts {
  /** Set of `kind`. */
  readonly kinds: number;
  /** Never a failure. */
  readonly sure: boolean;
  /** A #N/A may have become a failure of no kind: IFNA can no longer tell. */
  readonly lost: boolean;
  /** Every text that it may be; undefined where they are not known. */
  readonly texts: readonly string[] | undefined;
}

/** A value of a cell that has its place in the program. */
export interface Slot {
  readonly row: number;
  readonly facts: Facts;
  /** Needed for a result. */
  needed: boolean;
  /** Place in the array of all values, once they are laid out. */
  at: number;
  /** What it is calculated from: one entry a leaf of its formula. */
  readonly leaves: readonly (Leaf | readonly Leaf[])[];
}

export interface Constant {
  readonly tag: 'constant';
  readonly value: Result;
}

export interface CellNode {
  readonly tag: 'cell';
  readonly slot: Slot;
}

export type Leaf = Constant | CellNode;

export interface Operation {
  readonly tag: 'operation';
  readonly name: string;
  readonly args: readonly Node[];
  readonly facts: Facts;
}

/** A stretch of cells. */
export interface List {
  readonly tag: 'list';
  readonly items: readonly Node[];
}

/** What is left of a formula for one cell once everything that does not vary is worked out. */
export type Node = Constant | CellNode | Operation | List;

export function constant(value: Result): Constant {
  return { tag: 'constant', value };
}

export function isLeaf(node: Node): node is Leaf {
  return node.tag === 'constant' || node.tag === 'cell';
}

export function kindOf(value: Result): number {
  if (typeof value === 'number') return kind.number;
  if (typeof value === 'string') return kind.text;
  if (typeof value === 'boolean') return kind.truth;
  if (value === null) return kind.blank;
  return value.error === failure.missing.error ? kind.missing : 0;
}

export function factsOf(node: Node): Facts {
  switch (node.tag) {
    case 'constant': {
      const { value } = node;
      return {
        kinds: kindOf(value),
        sure: !isFailure(value),
        lost: false,
        texts: typeof value === 'string' ? [value] : [],
      };
    }
    case 'cell':
      return node.slot.facts;
    case 'operation':
      return node.facts;
    case 'list':
      return together(node.items.map(factsOf));
  }
}

/** Of a value that is one of several. */
export function together(all: readonly Facts[]): Facts {
  const texts = new Set<string>();
  let known = true;
  let kinds = 0;
  for (const facts of all) {
    kinds |= facts.kinds;
    if (facts.texts === undefined) known = false;
    else for (const text of facts.texts) texts.add(text);
  }
  return {
    kinds,
    sure: all.every((facts) => facts.sure),
    lost: all.some((facts) => facts.lost),
    texts: known && texts.size <= mostTexts ? [...texts] : undefined,
  };
}

/** More texts than these are not worth keeping track of. */
const mostTexts = 64;

/** Whether a #N/A in a value is no longer told apart once it was worked with. */
export const loses = (facts: Facts): boolean => facts.lost || (facts.kinds & kind.missing) !== 0;

/** A value worked out from others; `sure` where it cannot fail if none of them does. */
export function operation(name: string, args: readonly Node[], kinds: number, sure = false): Operation {
  const all = args.map(factsOf);
  const facts: Facts = {
    kinds,
    sure: sure && all.every((each) => each.sure),
    lost: all.some(loses),
    texts: (kinds & kind.text) === 0 ? [] : undefined,
  };
  return { tag: 'operation', name, args, facts };
}
