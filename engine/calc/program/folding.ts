import type { Expression } from '../../sheets/expression.ts';
import type { Node } from './node.ts';

/** An argument of a function: a value, or the cells of a reference. */
export type FoldedArgument = { readonly value: Node } | { readonly cells: readonly Node[] };

/** Working out of a formula what does not vary, in one cell. */
export interface Folding {
  fold(expression: Expression): Node;
  argument(expression: Expression): FoldedArgument;
}
