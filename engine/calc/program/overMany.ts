import type { Emitter, Value } from './emitter.ts';
import { blank, numberLimit } from './encoding.ts';
import type { OperationShape, Shape } from './shape.ts';

type Write = (emitter: Emitter, shape: OperationShape) => Value;

const number = (text: string, finite: boolean): Value => ({ as: 'number', text, finite });

/** Goes through a stretch of cells; `x` names the one at hand. */
function each(emitter: Emitter, list: Shape, write: (x: string) => string): void {
  const { from, to } = emitter.list(list);
  const k = emitter.fresh();
  const x = emitter.fresh();
  emitter.line(`for (let ${k} = ${from}, end = ${to}; ${k} < end; ${k} += 1) {`);
  emitter.line(`  const ${x} = s[I[${k}]];`);
  emitter.line(`  ${write(x)}`);
  emitter.line('}');
}

/** Adds up in order, as the compiled path does, so that the last bits are the same. */
const sum: Write = (emitter, { args }) => {
  if (args.every((arg) => arg.tag !== 'list')) {
    return number(`(${args.map((arg) => emitter.loose(arg)).join(' + ')})`, false);
  }
  const total = emitter.fresh();
  emitter.line(`let ${total} = 0;`);
  for (const arg of args) {
    if (arg.tag !== 'list') emitter.line(`${total} += ${emitter.loose(arg)};`);
    else each(emitter, arg, (x) => `${total} += ${x} < ${numberLimit} ? ${x} : summand(${x});`);
  }
  return number(total, false);
};

const sumProduct: Write = (emitter, { args }) => {
  const [first, ...others] = args.map((arg) => emitter.list(arg));
  const total = emitter.fresh();
  const k = emitter.fresh();
  emitter.line(`let ${total} = 0;`);
  emitter.line(`for (let ${k} = 0, many = ${first?.to} - ${first?.from}; ${k} < many; ${k} += 1) {`);
  const factors = [first, ...others].map((list) => `s[I[${list?.from} + ${k}]]`);
  emitter.line(`  ${total} += ${factors.join(' * ')};`);
  emitter.line('}');
  return number(total, false);
};

/** How many of some cells are as a test says. */
function counting(emitter: Emitter, [known, ...over]: readonly Shape[], test: (x: string) => string): Value {
  const count = emitter.fresh();
  emitter.line(`let ${count} = ${emitter.loose(known)};`);
  for (const arg of over) {
    if (arg.tag === 'list') each(emitter, arg, (x) => `if (${test(x)}) ${count} += 1;`);
    else emitter.line(`if (${test(emitter.any(arg))}) ${count} += 1;`);
  }
  return number(count, true);
}

const most =
  (name: 'max' | 'min'): Write =>
  (emitter, { args }) => {
    const [first = 'NaN', ...others] = args.map((arg) => emitter.number(arg));
    return number(
      others.reduce((best, other) => `Math.${name}(${best}, ${other})`, first),
      true,
    );
  };

/** Functions over many values. */
export const overMany: readonly [string, Write][] = [
  ['sum', sum],
  ['sumProduct', sumProduct],
  ['count:isNumber', (emitter, { args }) => counting(emitter, args, (x) => `${x} < ${numberLimit}`)],
  ['count:isThere', (emitter, { args }) => counting(emitter, args, (x) => `${x} !== ${blank}`)],
  [
    'countMatching',
    (emitter, { args: [known, wanted, ...over] }) => {
      const match = emitter.name(`matching(${emitter.any(wanted)})`);
      return counting(emitter, known === undefined ? over : [known, ...over], (x) => `${match}(${x})`);
    },
  ],
  ['MAX', most('max')],
  ['MIN', most('min')],
];
