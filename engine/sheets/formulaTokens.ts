/** What is wrong with a formula's text, and where in it. */
export interface FormulaFault {
  readonly at: number;
  readonly message: string;
  readonly mend: string;
}

/** A word of a formula. */
export type Token =
  | { readonly kind: 'number'; readonly at: number; readonly text: string; readonly value: number }
  | {
      readonly kind: 'text' | 'function' | 'name' | 'sign' | 'end';
      readonly at: number;
      readonly text: string;
    };

/** Ends the reading of a formula at its first fault. */
export class Stop extends Error {
  readonly fault: FormulaFault;
  constructor(at: number, message: string, mend: string) {
    super(message);
    this.fault = { at, message, mend };
  }
}

const patterns: readonly (readonly [Token['kind'] | 'space', RegExp])[] = [
  ['space', /\s+/y],
  ['number', /(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d+)?/iy],
  ['text', /"(?:[^"]|"")*"/y],
  ['function', /[A-Z][A-Z0-9_.]*(?![A-Za-z0-9_])/y],
  ['name', /[a-z][a-z0-9_]*(?![A-Za-z0-9_])/y],
  ['sign', /<>|<=|>=|[-+*/^&=<>(),.[\]]/y],
];

/** A formula cut into its words, with an end after the last. */
export function tokens(source: string): Token[] {
  const list: Token[] = [];
  let at = 0;
  scan: while (at < source.length) {
    for (const [kind, pattern] of patterns) {
      pattern.lastIndex = at;
      const text = pattern.exec(source)?.[0];
      if (text === undefined) continue;
      if (kind === 'number') list.push({ kind, at, text, value: finite(text, at) });
      else if (kind !== 'space') list.push({ kind, at, text });
      at += text.length;
      continue scan;
    }
    const found = source[at];
    const word = /[A-Za-z][A-Za-z0-9_]*/y;
    word.lastIndex = at;
    const mixed = word.exec(source)?.[0];
    if (mixed !== undefined) throw mixedCase(mixed, at, source);
    if (found === '"')
      throw new Stop(at, 'A text is opened and not closed.', 'Close it with a quotation mark.');
    if (found === ';')
      throw new Stop(at, '“;” does not separate arguments here.', 'Separate arguments with commas.');
    if (found === '%') throw new Stop(at, '“%” is not used in formulas.', 'Write 0.12 for 12 %.');
    if (found === '$' || found === '!')
      throw new Stop(
        at,
        `“${found}” is not used: cells are called by name.`,
        'Write a column name, or sheet[key].column.',
      );
    throw new Stop(at, `“${found}” cannot stand in a formula.`, 'Remove it.');
  }
  list.push({ kind: 'end', at: source.length, text: '' });
  return list;
}

function finite(text: string, at: number): number {
  const value = Number(text);
  if (Number.isFinite(value)) return value;
  throw new Stop(
    at,
    `${text} is larger than any number that can be calculated with.`,
    'Write a smaller one.',
  );
}

/** A word of small letters and capitals is neither a name nor a function; what follows it tells what was meant. */
function mixedCase(word: string, at: number, source: string): Stop {
  const after = source
    .slice(at + word.length)
    .trimStart()
    .charAt(0);
  if (after === '!')
    return new Stop(
      at,
      `“${word}!” is not used: cells are called by name.`,
      'Write a column name, or sheet[key].column.',
    );
  return after === '('
    ? new Stop(
        at,
        `“${word}” has small letters, so it is no function.`,
        `Functions are UPPERCASE: ${word.toUpperCase()}(…).`,
      )
    : new Stop(
        at,
        `“${word}” has capitals, and names of columns and sheets have none.`,
        `Names are lowercase: ${word.toLowerCase()}.`,
      );
}
