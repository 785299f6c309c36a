import { cordFunctions } from '../../cord/index.ts';
import { roundingRules } from '../roundingRules.ts';
import { type Emitter, type Operations, sureOf, truthOf, type Value } from './emitter.ts';
import { missing, numberLimit, topText } from './encoding.ts';
import { kind } from './node.ts';
import { overMany } from './overMany.ts';
import { totalRoundings } from './runtime.ts';
import type { OperationShape, Shape } from './shape.ts';

type Write = (emitter: Emitter, shape: OperationShape) => Value;

const number = (text: string, finite = true): Value => ({ as: 'number', text, finite });

/** Sums, differences and products hand on what has left the range of a double, and NaN: nobody need ask. */
function arithmetic(operator: string): Write {
  return (emitter, { args: [left, right] }) => {
    const one = emitter.loose(left);
    return number(`(${one} ${operator} ${emitter.loose(right)})`, false);
  };
}

const opposite: Readonly<Record<string, string>> = { '<': '>=', '<=': '>', '>': '<=', '>=': '<' };

/** When a comparison of two numbers holds and when it does not; neither where one of them is NaN. */
function compared(operator: string, one: string, other: string): { yes: string; no: string } {
  const unlike = `(${one} < ${other} || ${one} > ${other})`;
  if (operator === '=') return { yes: `${one} === ${other}`, no: unlike };
  if (operator === '<>') return { yes: unlike, no: `${one} === ${other}` };
  return { yes: `${one} ${operator} ${other}`, no: `${one} ${opposite[operator]} ${other}` };
}

const comparison =
  (operator: string): Write =>
  (emitter, { args: [left, right] }) => ({
    as: 'asked',
    ...compared(operator, emitter.number(left), emitter.number(right)),
  });

/** A function of JavaScript that gives NaN for NaN. */
const spelled =
  (spell: (x: string) => string, finite = true): Write =>
  (emitter, { args: [only] }) =>
    number(spell(emitter.number(only)), finite);

/** A function of the runtime. Where it might pass over an argument that has failed, that is asked first. */
const called =
  (name: string): Write =>
  (emitter, { args }) => {
    const numbers = args.map((each) => emitter.number(each));
    if (name in roundingRules && numbers.length === 1) numbers.push('0');
    const call = `${name}(${numbers.join(', ')})`;
    const asked = totalRoundings.includes(name) ? numbers.slice(1) : numbers;
    const open = asked.filter((each) => /^[a-z]/i.test(each));
    if (open.length === 0) return number(call);
    return number(`(${open.map((each) => `${each} === ${each}`).join(' && ')} ? ${call} : NaN)`);
  };

const truths =
  (decides: boolean): Write =>
  (emitter, { args }) => {
    const tests = args.map((each) => emitter.asked(each));
    if (tests.every((each) => each.no === `!(${each.yes})`)) {
      return { as: 'asked', ...sureOf(`(${tests.map((each) => each.yes).join(decides ? ' || ' : ' && ')})`) };
    }
    // A failure among them makes the sum NaN.
    const held = emitter.name(tests.map(truthOf).join(' + '));
    if (decides) return { as: 'asked', yes: `${held} > 0`, no: `${held} === 0` };
    return { as: 'asked', yes: `${held} === ${tests.length}`, no: `${held} < ${tests.length}` };
  };

const general: Write = (emitter, shape) => {
  const name = shape.name.slice('general:'.length);
  const args = shape.args.map((each) => argument(emitter, each));
  const text = emitter.name(
    name === '&'
      ? `join(${args.join(', ')}, texts)`
      : `general(${JSON.stringify(name)}, texts, [${args.join(', ')}])`,
  );
  // As a number, a #N/A is one failure among others.
  return shape.kinds === kind.number
    ? number(`(${text} < ${numberLimit} ? ${text} : NaN)`)
    : { as: 'any', text };
};

function argument(emitter: Emitter, shape: Shape): string {
  if (shape.tag === 'operation' && shape.name === 'cells') {
    return `[${shape.args.map((each) => emitter.any(each)).join(', ')}]`;
  }
  if (shape.tag !== 'list') return emitter.any(shape);
  const { from, to } = emitter.list(shape);
  return `gather(s, I, ${from}, ${to})`;
}

const writers: [string, Write][] = [
  ...['+', '-', '*'].map((each): [string, Write] => [each, arithmetic(each)]),
  [
    '/',
    // Out of the range below the line would make a plain 0 of it; a division by 0 leaves the range by itself.
    (emitter, { args: [left, right] }) => {
      const one = emitter.loose(left);
      return number(`(${one} / ${emitter.number(right)})`, false);
    },
  ],
  [
    '^',
    (emitter, { args: [left, right] }) =>
      number(`power(${emitter.number(left)}, ${emitter.number(right)})`, false),
  ],
  ['negate', (emitter, { args: [only] }) => number(`(0 - ${emitter.loose(only)})`, false)],
  ...['<', '<=', '>', '>=', '=', '<>'].map((each): [string, Write] => [each, comparison(each)]),
  [
    'compare',
    (emitter, { name, args: [left, right] }) => {
      const difference = emitter.name(`compare(${emitter.any(left)}, ${emitter.any(right)}, texts)`);
      return { as: 'asked', ...compared(name.slice('compare:'.length), difference, '0') };
    },
  ],
  [
    'given',
    (emitter, { name, args: [only] }) => {
      const x = emitter.number(only);
      const test = `${x} === ${x}`;
      return name === 'given:true'
        ? { as: 'asked', yes: test, no: 'false' }
        : { as: 'asked', yes: 'false', no: test };
    },
  ],
  [
    'oneOf',
    (emitter, { args: [subject, ...texts], sure }) => {
      const x = emitter.any(subject);
      const is =
        texts.length === 0
          ? 'false'
          : `(${texts.map((each) => `${x} === ${emitter.any(each)}`).join(' || ')})`;
      if (sure) return { as: 'asked', ...sureOf(is) };
      const kinds = subject?.tag === 'list' ? 0 : (subject?.kinds ?? 0);
      return { as: 'asked', yes: is, no: `(!(${is}) && ${emitter.given(x, kinds)})` };
    },
  ],
  ['AND', truths(false)],
  ['OR', truths(true)],
  [
    'NOT',
    (emitter, { args: [only] }) => {
      const { yes, no } = emitter.asked(only);
      return { as: 'asked', yes: no, no: yes };
    },
  ],
  [
    'ISNUMBER',
    (emitter, { args: [only] }) => ({ as: 'asked', ...sureOf(`${emitter.any(only)} < ${numberLimit}`) }),
  ],
  [
    'ISTEXT',
    (emitter, { args: [only] }) => {
      const x = emitter.any(only);
      return { as: 'asked', ...sureOf(`(${x} > ${numberLimit} && ${x} <= ${topText})`) };
    },
  ],
  [
    'IF',
    (emitter, shape) => emitter.either(emitter.asked(shape.args[0]), shape.args[1], shape.args[2], shape),
  ],
  [
    'IFERROR',
    (emitter, shape) => {
      const [first, instead] = shape.args;
      const kinds = first === undefined || first.tag === 'list' ? 0 : first.kinds;
      return emitter.either(sureOf(emitter.given(emitter.any(first), kinds)), first, instead, shape);
    },
  ],
  [
    'IFNA',
    (emitter, shape) => {
      const [first, instead] = shape.args;
      const x = emitter.any(first);
      const other = emitter.either(sureOf(`${x} === ${missing}`), instead, first, shape);
      return other;
    },
  ],
  ['number', (emitter, { args: [only] }) => number(emitter.loose(only))],
  [
    'truth',
    (emitter, { args: [only] }) => {
      if (only === undefined) throw new Error('A value is wanted');
      const value = emitter.value(only);
      if (value.as !== 'any') return { as: 'asked', ...emitter.asked(only) };
      return { as: 'truth', text: emitter.name(`truth(${emitter.name(value.text)}, texts)`) };
    },
  ],
  ['summand', (emitter, { args: [only] }) => number(`summand(${emitter.any(only)})`)],
  ['general', general],
  [
    'lookUp',
    (emitter, { args: [targets, rowKeys, ...keys] }) => {
      const [to, from] = [targets, rowKeys].map((each) => {
        const list = emitter.list(each);
        return `gather(s, I, ${list.from}, ${list.to})`;
      });
      const asked = keys.map((each) => emitter.any(each)).join(', ');
      return { as: 'any', text: emitter.name(`lookUp(texts, ${to}, ${from}, [${asked}])`) };
    },
  ],
  ['ABS', spelled((x) => `Math.abs(${x})`)],
  ['COS', spelled((x) => `Math.cos(${x})`)],
  ['EXP', spelled((x) => `Math.exp(${x})`, false)],
  ['LN', spelled((x) => `(${x} > 0 ? Math.log(${x}) : NaN)`)],
  ['RADIANS', spelled((x) => `(${x} * ${Math.PI / 180})`)],
  ['SIN', spelled((x) => `Math.sin(${x})`)],
  ['SQRT', spelled((x) => `Math.sqrt(${x})`)],
  ['TAN', spelled((x) => `Math.tan(${x})`)],
  ...Object.keys(roundingRules).map((name): [string, Write] => [name, called(name)]),
  ...cordFunctions.map(({ name }): [string, Write] => [name, called(name)]),
  ...overMany,
];

/** How each operation of a folded formula is written. */
export const operations: Operations = new Map(writers);
