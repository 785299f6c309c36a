import { cordFunctions } from '../../cord/index.ts';
import type { Expression } from '../../sheets/expression.ts';
import { type Argument, compiledFunctions } from '../compiled/functions.ts';
import { failure } from '../compiled/scalar.ts';
import { roundingRules } from '../roundingRules.ts';
import { isFailure, type Result } from '../values.ts';
import { foldAggregate } from './foldAggregate.ts';
import { foldComparison } from './foldComparison.ts';
import type { FoldedArgument, Folding } from './folding.ts';
import { condition, numeric } from './foldNumbers.ts';
import { constant, factsOf, isLeaf, kind, loses, type Node, operation, together } from './node.ts';

/** Functions of numbers that flat code calls or spells. */
const ofNumbers: ReadonlySet<string> = new Set([
  ...['ABS', 'COS', 'EXP', 'LN', 'RADIANS', 'SIN', 'SQRT', 'TAN'],
  ...Object.keys(roundingRules),
  ...cordFunctions.map(({ name }) => name),
]);

/** Functions that come from elsewhere than `ofNumbers` and give text. */
const ofText: ReadonlySet<string> = new Set(['LOWER', 'UPPER']);

/** Works out what does not vary in the call of a function. */
export function foldCall(folder: Folding, name: string, args: readonly Expression[]): Node {
  const [first, second, third] = args;
  if (name === 'IF' && first !== undefined && second !== undefined && third !== undefined) {
    return choose(
      condition(folder.fold(first)),
      () => folder.fold(second),
      () => folder.fold(third),
    );
  }
  if (name === 'SWITCH' && first !== undefined) {
    return foldSwitch(folder, folder.fold(first), args.slice(1));
  }
  if ((name === 'IFERROR' || name === 'IFNA') && first !== undefined && second !== undefined) {
    return foldCatch(name, folder.fold(first), () => folder.fold(second));
  }
  const folded = args.map((argument) => folder.argument(argument));
  if (folded.every(isConstant)) return constant(worked(name, folded));
  if (name === 'AND' || name === 'OR') return foldTruths(name, folded);
  if (ofNumbers.has(name)) return operation(name, folded.map(oneValue).map(numeric), kind.number);
  switch (name) {
    case 'NOT':
      return operation('NOT', folded.map(oneValue).map(condition), kind.truth, true);
    case 'ISNUMBER':
    case 'ISTEXT':
      return foldKind(name, oneValue(folded[0]));
    default:
  }
  const aggregate = foldAggregate(name, folded);
  if (aggregate !== undefined) return aggregate;
  return operation(`general:${name}`, folded.map(asOne), ofText.has(name) ? kind.text : kind.number);
}

/** A branch that is not taken is not looked at. */
function choose(asked: Node, then: () => Node, otherwise: () => Node): Node {
  if (asked.tag === 'constant') {
    if (isFailure(asked.value)) return asked;
    return asked.value === true ? then() : otherwise();
  }
  const [one, other] = [then(), otherwise()];
  const facts = factsOf(asked);
  const both = together([factsOf(one), factsOf(other)]);
  const made = operation('IF', [asked, one, other], both.kinds);
  return {
    ...made,
    facts: { ...both, sure: both.sure && facts.sure, lost: both.lost || loses(facts) },
  };
}

/** SWITCH is a chain of IFs that ask the same. */
function foldSwitch(folder: Folding, subject: Node, rest: readonly Expression[]): Node {
  if (subject.tag === 'constant' && isFailure(subject.value)) return subject;
  const from = (at: number): Node => {
    const [candidate, then] = [rest[at], rest[at + 1]];
    if (candidate === undefined) return constant(failure.missing);
    if (then === undefined) return folder.fold(candidate);
    const compared = folder.fold(candidate);
    return choose(
      sameAs(subject, compared),
      () => folder.fold(then),
      () => from(at + 2),
    );
  };
  return from(0);
}

function sameAs(subject: Node, candidate: Node): Node {
  if (subject.tag === 'constant' && candidate.tag === 'constant') {
    const value = compiledFunctions.get('SWITCH')?.([
      { value: () => subject.value },
      { value: () => candidate.value },
      { value: () => true },
      { value: () => false },
    ])(0);
    return constant(value ?? null);
  }
  return foldComparison('=', subject, candidate);
}

function foldCatch(name: 'IFERROR' | 'IFNA', first: Node, second: () => Node): Node {
  const facts = factsOf(first);
  if (first.tag === 'constant') {
    const isCaught =
      isFailure(first.value) && (name === 'IFERROR' || first.value.error === failure.missing.error);
    return isCaught ? second() : first;
  }
  if (name === 'IFERROR' && facts.sure) return first;
  if (name === 'IFNA' && facts.lost) {
    throw new Error('IFNA of what may be #N/A on the way: write IFERROR, or IFNA nearer to the look-up');
  }
  if (name === 'IFNA' && (facts.kinds & kind.missing) === 0) return first;
  const instead = second();
  const others = factsOf(instead);
  const both = together([{ ...facts, kinds: facts.kinds & ~kind.missing }, others]);
  const made = operation(name, [first, instead], both.kinds);
  return {
    ...made,
    facts: { ...both, sure: name === 'IFERROR' && others.sure, lost: others.lost },
  };
}

/** Every argument counts, also those after the one that decides, since one that fails makes all fail. */
function foldTruths(name: 'AND' | 'OR', args: readonly FoldedArgument[]): Node {
  const decides = name === 'OR';
  const truths = args.flatMap((each) => ('cells' in each ? each.cells : [each.value])).map(condition);
  const failing = truths.find((each) => each.tag === 'constant' && isFailure(each.value));
  if (failing !== undefined) return failing;
  const open = truths.filter((each) => each.tag !== 'constant');
  if (!truths.some((each) => each.tag === 'constant' && each.value === decides)) {
    return operation(name, open, kind.truth, true);
  }
  if (open.every((each) => factsOf(each).sure)) return constant(decides);
  return operation(name, [...open, constant(decides)], kind.truth, true);
}

function foldKind(name: 'ISNUMBER' | 'ISTEXT', value: Node): Node {
  const { kinds, sure } = factsOf(value);
  const wanted = name === 'ISNUMBER' ? kind.number : kind.text;
  if ((kinds & wanted) === 0) return constant(false);
  if (kinds === wanted && sure) return constant(true);
  const made = operation(name, [value], kind.truth);
  return { ...made, facts: { ...made.facts, sure: true, lost: false } };
}

function isConstant(argument: FoldedArgument): boolean {
  return 'cells' in argument
    ? argument.cells.every((each) => each.tag === 'constant')
    : argument.value.tag === 'constant';
}

const valueIn = (node: Node): Result => (node.tag === 'constant' ? node.value : null);

function worked(name: string, args: readonly FoldedArgument[]): Result {
  const compiled = compiledFunctions.get(name);
  if (compiled === undefined) throw new Error(`${name} has no compiled form`);
  const prepared = args.map((argument): Argument => {
    if (!('cells' in argument)) return { value: () => valueIn(argument.value) };
    const cells = argument.cells.map(valueIn);
    return { value: () => cells[0] ?? null, cells: () => cells };
  });
  return compiled(prepared)(0);
}

function oneValue(argument: FoldedArgument | undefined): Node {
  if (argument === undefined) return constant(null);
  return 'cells' in argument ? (argument.cells[0] ?? constant(null)) : argument.value;
}

/** An argument as its compiled form takes it: one value, or cells. */
function asOne(argument: FoldedArgument): Node {
  if (!('cells' in argument)) return argument.value;
  const { cells } = argument;
  if (cells.every(isLeaf)) return { tag: 'list', items: cells };
  return operation('cells', cells, together(cells.map(factsOf)).kinds);
}
