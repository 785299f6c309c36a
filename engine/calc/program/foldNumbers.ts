import { toNumber, toTruth } from '../compiled/scalar.ts';
import { constant, factsOf, kind, type Node, operation } from './node.ts';

/** A value where a number is wanted. */
export function numeric(node: Node): Node {
  if (node.tag === 'constant') return constant(toNumber(node.value));
  const { kinds } = factsOf(node);
  if ((kinds & ~kind.number) === 0) return node;
  return operation('number', [node], kind.number, (kinds & ~(kind.number | kind.truth | kind.blank)) === 0);
}

/** A value where a condition is wanted. */
export function condition(node: Node): Node {
  if (node.tag === 'constant') return constant(toTruth(node.value));
  const { kinds } = factsOf(node);
  if (kinds === kind.truth) return node;
  return operation('truth', [node], kind.truth, (kinds & ~(kind.number | kind.truth | kind.blank)) === 0);
}
