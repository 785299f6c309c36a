import { missing, no, numberLimit, yes } from './encoding.ts';
import { kind } from './node.ts';
import type { LeafShape, OperationShape, Shape } from './shape.ts';

/**
 * An expression of the program, by what its double means.
 * - `number`: a number, or NaN; `finite` unless it may have left the range of a double
 * - `truth`: 1, 0, or NaN
 * - `any`: any value, encoded
 * - `asked`: two conditions; where neither holds, it has failed
 */
export type Value =
  | { readonly as: 'number'; readonly text: string; readonly finite: boolean }
  | { readonly as: 'truth'; readonly text: string }
  | { readonly as: 'any'; readonly text: string }
  | { readonly as: 'asked'; readonly yes: string; readonly no: string };

/** Where the parameters of a shape are found. */
export interface Parameters {
  /** The expression of a leaf. */
  leaf(at: number): string;
  /** Places in the table of slots where a list begins and ends. */
  list(at: number): { readonly from: string; readonly to: string };
  /** The same in every row of a loop, so that what is made of it alone is worked out before. */
  isSame(at: number): boolean;
}

export type Operations = ReadonlyMap<string, (emitter: Emitter, shape: OperationShape) => Value>;

interface Block {
  readonly lines: string[];
  /** Expressions that have a name already. */
  readonly names: Map<string, string>;
}

const atom = /^(?:[A-Za-z_]\w*|-?\d+(?:\.\d+)?(?:e[+-]?\d+)?)$/;

/** A double as JavaScript. */
export function literal(x: number): string {
  return Object.is(x, -0) ? '-0' : String(x);
}

/** Writes the statements for one shape. */
export class Emitter {
  /** Statements before the loop: what is the same in every row. */
  readonly before: string[] = [];
  readonly #operations: Operations;
  readonly #parameters: Parameters;
  readonly #done = new Map<Block, Map<Shape, Value>>();
  #blocks: Block[];
  readonly #outer: Block;
  #names = 0;

  constructor(operations: Operations, parameters: Parameters) {
    this.#operations = operations;
    this.#parameters = parameters;
    this.#outer = { lines: this.before, names: new Map() };
    this.#blocks = [this.#outer, { lines: [], names: new Map() }];
  }

  /** Statements of one row, the last of which stores its value. */
  row(shape: Shape, target: string): string[] {
    this.line(`${target} = ${this.encoded(shape)};`);
    return this.#block.lines;
  }

  get #block(): Block {
    return this.#blocks[this.#blocks.length - 1] ?? this.#outer;
  }

  line(text: string): void {
    this.#block.lines.push(text);
  }

  fresh(): string {
    this.#names += 1;
    return `t${this.#names}`;
  }

  /** A name for an expression that is used more than once. */
  name(text: string): string {
    if (atom.test(text)) return text;
    for (const block of this.#blocks) {
      const known = block.names.get(text);
      if (known !== undefined) return known;
    }
    const name = this.fresh();
    this.#block.names.set(text, name);
    this.line(`const ${name} = ${text};`);
    return name;
  }

  /** Statements of a branch. */
  branch<Made>(write: () => Made): { lines: string[]; made: Made } {
    const block: Block = { lines: [], names: new Map() };
    this.#blocks.push(block);
    const made = write();
    this.#blocks.pop();
    return { lines: block.lines, made };
  }

  value(shape: Shape): Value {
    if (shape.tag === 'list') throw new Error('A stretch of cells is no value');
    for (const block of this.#blocks) {
      const known = this.#done.get(block)?.get(shape);
      if (known !== undefined) return known;
    }
    const isOutside =
      shape.tag === 'leaf'
        ? this.#parameters.isSame(shape.at)
        : shape.leaves.every((at) => this.#parameters.isSame(at));
    const made = isOutside ? this.#outside(() => this.#named(this.#make(shape))) : this.#make(shape);
    if (shape.tag === 'operation') {
      const block = isOutside ? this.#outer : this.#block;
      const known = this.#done.get(block) ?? new Map<Shape, Value>();
      this.#done.set(block, known.set(shape, made));
    }
    return made;
  }

  #outside<Made>(write: () => Made): Made {
    const blocks = this.#blocks;
    if (blocks.length === 1) return write();
    this.#blocks = [this.#outer];
    const made = write();
    this.#blocks = blocks;
    return made;
  }

  #named(value: Value): Value {
    return value.as === 'asked' ? value : { ...value, text: this.name(value.text) };
  }

  #make(shape: LeafShape | OperationShape): Value {
    if (shape.tag === 'leaf') {
      const text = this.name(this.#parameters.leaf(shape.at));
      const isNumber = (shape.kinds & ~kind.number) === 0;
      return isNumber ? { as: 'number', text, finite: true } : { as: 'any', text };
    }
    const [family = ''] = shape.name.split(':');
    const write = this.#operations.get(shape.name) ?? this.#operations.get(family);
    if (write === undefined) throw new Error(`${shape.name} has no form in a program`);
    return write(this, shape);
  }

  list(shape: Shape | undefined): { from: string; to: string } {
    if (shape?.tag !== 'list') throw new Error('A stretch of cells is wanted');
    return this.#parameters.list(shape.at);
  }

  /** A number that may have left the range of a double: sums and products pass that on. */
  loose(shape: Shape | undefined): string {
    if (shape === undefined) return '0';
    const value = this.value(shape);
    switch (value.as) {
      case 'number':
      case 'truth':
        return value.text;
      case 'any': {
        const x = this.name(value.text);
        return `(${x} < ${numberLimit} ? ${x} : number(${x}, texts))`;
      }
      case 'asked':
        return truthOf(value);
    }
  }

  /** A number that is finite or NaN, under a name. */
  number(shape: Shape | undefined): string {
    const value = shape === undefined ? undefined : this.value(shape);
    const x = this.name(value?.as === 'number' ? value.text : this.loose(shape));
    // 0 * x is NaN for a number that has left the range, and 0 for all others.
    return value?.as === 'number' && !value.finite ? this.name(`${x} + 0 * ${x}`) : x;
  }

  /** Any value, encoded, under a name. */
  any(shape: Shape | undefined): string {
    if (shape === undefined) return 'NaN';
    return this.name(this.encoded(shape));
  }

  encoded(shape: Shape): string {
    const value = this.value(shape);
    switch (value.as) {
      case 'number':
        return value.finite ? value.text : this.number(shape);
      case 'any':
        return value.text;
      case 'truth':
        return `(${value.text} === 1 ? ${yes} : ${value.text} === 0 ? ${no} : NaN)`;
      case 'asked':
        return `(${value.yes} ? ${yes} : ${value.no} ? ${no} : NaN)`;
    }
  }

  /** When it is true and when it is false; a number where a condition is wanted is true unless it is zero. */
  asked(shape: Shape | undefined): { readonly yes: string; readonly no: string } {
    if (shape === undefined || shape.tag === 'list') throw new Error('A condition is wanted');
    const value = this.value(shape);
    if (value.as === 'asked') return value;
    if (value.as === 'number') {
      const x = this.number(shape);
      return { yes: `(${x} < 0 || ${x} > 0)`, no: `${x} === 0` };
    }
    const x = this.name(value.text);
    if (value.as === 'truth') return { yes: `${x} === 1`, no: `${x} === 0` };
    return { yes: `${x} === ${yes}`, no: `${x} === ${no}` };
  }

  /** Tests that an encoded value is no failure. */
  given(x: string, kinds: number): string {
    return (kinds & kind.missing) === 0 ? `${x} === ${x}` : `(${x} === ${x} && ${x} !== ${missing})`;
  }

  /** One of two values, in the form that the kinds of the whole ask for. */
  either(
    test: { readonly yes: string; readonly no: string },
    then: Shape | undefined,
    otherwise: Shape | undefined,
    whole: OperationShape,
  ): Value {
    const as = formOf(whole.kinds);
    const write = (shape: Shape | undefined): string => {
      if (shape === undefined || shape.tag === 'list') throw new Error('A value is wanted');
      if (as === 'number') return this.number(shape);
      return as === 'truth' ? truthOf(this.asked(shape)) : this.encoded(shape);
    };
    const one = this.branch(() => write(then));
    const other = this.branch(() => write(otherwise));
    const finite = { finite: true } as const;
    if (one.lines.length === 0 && other.lines.length === 0) {
      const last = test.no === `!(${test.yes})` ? other.made : `${test.no} ? ${other.made} : NaN`;
      return { as, text: `(${test.yes} ? ${one.made} : ${last})`, ...finite };
    }
    const name = this.fresh();
    this.line(`let ${name} = NaN;`);
    this.line(`if (${test.yes}) {`);
    for (const line of [...one.lines, `${name} = ${one.made};`]) this.line(`  ${line}`);
    this.line(test.no === `!(${test.yes})` ? '} else {' : `} else if (${test.no}) {`);
    for (const line of [...other.lines, `${name} = ${other.made};`]) this.line(`  ${line}`);
    this.line('}');
    return { as, text: name, ...finite };
  }
}

export function truthOf(test: { readonly yes: string; readonly no: string }): string {
  const rest = test.no === `!(${test.yes})` ? '0' : `${test.no} ? 0 : NaN`;
  return `(${test.yes} ? 1 : ${rest})`;
}

/** Conditions of something that cannot fail. */
export function sureOf(test: string): { readonly yes: string; readonly no: string } {
  return { yes: test, no: `!(${test})` };
}

function formOf(kinds: number): 'number' | 'truth' | 'any' {
  if ((kinds & ~kind.number) === 0) return 'number';
  return kinds === kind.truth ? 'truth' : 'any';
}
