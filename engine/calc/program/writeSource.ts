import { cordFunctions } from '../../cord/index.ts';
import { roundingRules } from '../roundingRules.ts';
import { Emitter, literal } from './emitter.ts';
import { numberLimit } from './encoding.ts';
import type { Layout } from './layout.ts';
import type { Leaf, Slot } from './node.ts';
import { operations } from './operations.ts';
import type { Shape } from './shape.ts';
import type { Group } from './slice.ts';

/** Rows of one shape fewer than this are written out one by one. */
const fewest = 4;

/** V8 does not optimise a function of more than about 60 kB of bytecode; this many lines stay far below. */
const linesInFunction = 100;

/** Names that the source takes from the runtime. */
const taken: readonly string[] = [
  ...['number', 'truth', 'summand', 'figure', 'power', 'join', 'general', 'gather', 'lookUp', 'compare'],
  ...Object.keys(roundingRules),
  ...cordFunctions.map(({ name }) => name),
];

/**
 * The whole program as a function expression of the runtime.
 *
 * @param cells how many varied and calculated cells there are; the first `varied` take figures
 */
export function writeSource(
  groups: readonly Group[],
  results: readonly Leaf[],
  layout: Layout,
  cells: number,
  varied: number,
): string {
  const statements = groups.flatMap((group) => writeGroup(group, layout));
  const places = results.map((leaf) => layout.placeOf(leaf));
  const functions = chunked(statements).map(
    (lines, at) => `  function part${at}(s, I, C) {\n${indented(lines, 4)}\n  }`,
  );
  const body = functions.join('\n');
  const used = taken.filter((name) => new RegExp(`\\b${name}\\(`).test(body) || name === 'figure');
  return `(runtime) => {
  const { ${used.join(', ')} } = runtime;
  const texts = runtime.texts(${quoted(layout.texts.list)});
  const matching = runtime.matchers(texts);
  const s = new Float64Array(${cells + layout.constants.length});
  s.set([${layout.constants.map(literal).join(', ')}], ${cells});
  const I = new Int32Array([${layout.places.join(', ')}]);
  const C = new Float64Array([${layout.figures.map(literal).join(', ')}]);
  const results = new Int32Array([${places.join(', ')}]);
${body}
  return {
    run(figures, out) {
      texts.reset();
      for (let k = 0; k < ${varied}; k += 1) {
        const x = figures[k];
        s[k] = x + 0 * x;
      }
${functions.map((_, at) => `      part${at}(s, I, C);`).join('\n')}
      for (let k = 0; k < ${places.length}; k += 1) {
        const x = s[results[k]];
        out[k] = x < ${numberLimit} ? x : figure(x);
      }
    },
  };
}`;
}

/** As JSON, and so that no text can end a script element of a page. */
function quoted(texts: readonly string[]): string {
  return JSON.stringify(texts).replace(
    /[<\u2028\u2029]/g,
    (sign) => `\\u${sign.charCodeAt(0).toString(16).padStart(4, '0')}`,
  );
}

/** Statements of the cells of one shape: a loop, or one statement after the other. */
function writeGroup({ shape, slots }: Group, layout: Layout): string[][] {
  if (slots.length < fewest) return slots.map((slot) => writeRow(shape, slot, layout));
  const emitter = new Emitter(operations, layout.parameters(slots));
  const [first] = slots;
  const row = emitter.row(shape, `s[${first?.at} + i]`);
  const loop = [`for (let i = 0; i < ${slots.length}; i += 1) {`, ...row.map((line) => `  ${line}`), '}'];
  return [block([...emitter.before, ...loop])];
}

function writeRow(shape: Shape, slot: Slot, layout: Layout): string[] {
  const emitter = new Emitter(operations, layout.parameters([slot]));
  return block([...emitter.before, ...emitter.row(shape, `s[${slot.at}]`)]);
}

/** Names of one cell are its own. */
function block(lines: readonly string[]): string[] {
  return lines.length === 1 ? [...lines] : ['{', ...lines.map((line) => `  ${line}`), '}'];
}

function chunked(statements: readonly (readonly string[])[]): string[][] {
  const chunks: string[][] = [];
  let open: string[] = [];
  for (const lines of statements) {
    if (open.length > 0 && open.length + lines.length > linesInFunction) {
      chunks.push(open);
      open = [];
    }
    open.push(...lines);
  }
  if (open.length > 0) chunks.push(open);
  return chunks;
}

function indented(lines: readonly string[], by: number): string {
  return lines.map((line) => ' '.repeat(by) + line).join('\n');
}
