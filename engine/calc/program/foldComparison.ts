import { compare } from '../compiled/scalar.ts';
import { isFailure } from '../values.ts';
import { constant, factsOf, kind, type Node, operation } from './node.ts';

/** How a comparison reads from the other side. */
const turned: Readonly<Record<string, string>> = {
  '<': '>',
  '<=': '>=',
  '>': '<',
  '>=': '<=',
  '=': '=',
  '<>': '<>',
};

const holds: Readonly<Record<string, (difference: number) => boolean>> = {
  '<': (difference) => difference < 0,
  '<=': (difference) => difference <= 0,
  '>': (difference) => difference > 0,
  '>=': (difference) => difference >= 0,
  '=': (difference) => difference === 0,
  '<>': (difference) => difference !== 0,
};

/** A comparison of which one side at least varies. */
export function foldComparison(operator: string, left: Node, right: Node): Node {
  if (left.tag === 'constant') return foldComparison(turned[operator]!, right, left);
  const { kinds, texts, sure } = factsOf(left);
  const mayMiss = kinds & kind.missing;
  if (right.tag === 'constant') {
    const { value } = right;
    if (isFailure(value)) return right;
    const test = holds[operator];
    if (test === undefined) throw new Error(`No operator ${operator}`);
    if (kinds === kind.number && (typeof value === 'number' || value === null)) {
      return operation(operator, [left, constant(value ?? 0)], kind.truth, true);
    }
    if (kinds === kind.number) {
      // Numbers come before text, and text before truth, whatever the number.
      return operation(test(compare(0, value)) ? 'given:true' : 'given:false', [left], kind.truth, true);
    }
    const onlyTexts = (kinds & ~(kind.text | kind.blank | kind.missing)) === 0;
    if (onlyTexts && texts !== undefined && (typeof value === 'string' || value === null)) {
      // Worked out for each text that there may be; what is left is to see which one it is.
      const fitting: Node[] = texts.filter((text) => test(compare(text, value))).map(constant);
      if ((kinds & kind.blank) !== 0 && test(compare(null, value))) fitting.push(constant(null));
      const found = operation('oneOf', [left, ...fitting], kind.truth, true);
      return mayMiss === 0 ? found : { ...found, facts: { ...found.facts, sure: false } };
    }
  } else if (kinds === kind.number && factsOf(right).kinds === kind.number) {
    return operation(operator, [left, right], kind.truth, true);
  }
  const found = operation(`compare:${operator}`, [left, right], kind.truth, true);
  return sure && mayMiss === 0 ? found : { ...found, facts: { ...found.facts, sure: false } };
}
