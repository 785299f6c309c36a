import { fingerprint } from '../book/files/fingerprint.ts';

/** What a formula does, and the rows that it does it with, each with the sheet as it is called there. */
export interface FormulaReading {
  readonly shape: string;
  readonly rows: readonly { readonly sheet: string | undefined; readonly row: number }[];
}

/**
 * Reads formulas. The shape is what a formula does, whatever rows it does it with: its functions, signs and figures in
 * order, and of every reference the sheet and columns. Rows move where a table is sorted or gets longer, and programs
 * spell alike things otherwise; neither changes the shape.
 *
 * @param column names the column of a sheet by its letters; the sheet is undefined for that of the formula
 */
export function formulaReader(
  column: (sheet: string | undefined, letters: string) => string,
): (formula: string) => FormulaReading {
  const read = bareReader(column);
  return (formula) => {
    const { shape, references } = read(formula);
    const numbers = formula.match(rowNumber) ?? [];
    const rows = references.flatMap(({ sheet, numbers: at }) =>
      // A range of one row is that row.
      [...new Set(at.map((each) => Number(numbers[each])))].map((row) => ({ sheet, row })),
    );
    return { shape, rows };
  };
}

/** The shapes of formulas alone. */
export function formulaShapes(
  column: (sheet: string | undefined, letters: string) => string,
): (formula: string) => string {
  const read = bareReader(column);
  return (formula) => read(formula).shape;
}

/** What a formula does, and which of its numbers are rows. */
interface BareReading {
  readonly shape: string;
  readonly references: readonly Spot[];
}

/** Formulas of a column differ in their row numbers: most are known without being taken apart. */
function bareReader(
  column: (sheet: string | undefined, letters: string) => string,
): (formula: string) => BareReading {
  const known = new Map<string, BareReading>();
  return (formula) => {
    const bare = formula.replace(rowNumber, '0');
    const read = known.get(bare) ?? readBare(formula, column);
    known.set(bare, read);
    return read;
  };
}

const rowNumber = /(?<=[A-Za-z$])\d+/g;

/** Which of a formula's numbers are the rows of a reference. */
interface Spot {
  readonly sheet: string | undefined;
  readonly numbers: readonly number[];
}

function readBare(
  formula: string,
  column: (sheet: string | undefined, letters: string) => string,
): BareReading {
  const places = [...formula.matchAll(rowNumber)].map(({ index }) => index);
  const references: Spot[] = [];
  const parts = formulaTokens(formula).map((token) => {
    if ('text' in token) return token.text;
    const { sheet, corners } = token.reference;
    const within = places.flatMap((place, at) => (place >= token.start && place < token.end ? [at] : []));
    // The name of a sheet may hold numbers too; it stands first.
    references.push({ sheet, numbers: within.slice(-corners.length) });
    return [...new Set(corners.map((corner) => column(sheet, corner.replace(/[^A-Z]/g, ''))))].join(':');
  });
  return { shape: fingerprint(parts.join(' ')).slice(0, 8), references };
}

/** A reference of a formula: the sheet as it is called there, and its corners. */
interface FormulaReference {
  readonly sheet: string | undefined;
  /** Column letters and row, with a dollar where they are fixed. */
  readonly corners: readonly string[];
}

/** Where a reference stands is counted from the beginning of the formula. */
type Token =
  | { readonly text: string }
  | { readonly reference: FormulaReference; readonly start: number; readonly end: number };

/**
 * The parts of a formula, in one spelling whichever program wrote it down: blanks, digits beyond the twelfth, prefixes of functions and of the
 * language, separators, quotes of sheet names, and TRUE without its brackets are all the same.
 */
function formulaTokens(formula: string): Token[] {
  const tokens: Token[] = [];
  const text = formula.replace(/^\s*(?:\w+:)?=/, '');
  const before = formula.length - text.length;
  let at = 0;
  while (at < text.length) {
    const rest = text.slice(at);
    const found = pattern.exec(rest);
    if (found === null) {
      tokens.push({ text: rest[0]! });
      at += 1;
      continue;
    }
    const start = before + at;
    at += found[0].length;
    const span = { start, end: before + at };
    const { blank, quoted, open, plain, number, word, sign } = found.groups as Readonly<
      Record<string, string | undefined>
    >;
    if (blank !== undefined) continue;
    if (quoted !== undefined) tokens.push({ text: quoted });
    else if (open !== undefined) tokens.push({ reference: openReference(open), ...span });
    else if (plain !== undefined) tokens.push({ reference: plainReference(plain), ...span });
    else if (number !== undefined) tokens.push({ text: String(Number(Number(number).toPrecision(12))) });
    else if (word !== undefined) tokens.push({ text: plainWord(word) });
    else tokens.push({ text: sign === ';' ? ',' : (sign as string) });
  }
  return withoutTruthBrackets(tokens);
}

const sheetPart = String.raw`(?:'(?:[^']|'')*'|[\p{L}_][\p{L}\p{N}_]*)`;
const cellPart = String.raw`\$?[A-Za-z]{1,3}\$?[1-9]\d{0,6}`;
const pattern = new RegExp(
  [
    String.raw`(?<blank>\s+)`,
    '(?<quoted>"(?:[^"]|"")*")',
    String.raw`(?<open>\[(?:[^\]'"]|'(?:[^']|'')*')*\])`,
    String.raw`(?<plain>(?:\$?${sheetPart}!)?${cellPart}(?::${cellPart})?(?![\p{L}\p{N}_.(]))`,
    String.raw`(?<number>(?:\d+(?:\.\d*)?|\.\d+)(?:[eE][+-]?\d+)?)`,
    String.raw`(?<word>[\p{L}_][\p{L}\p{N}_.]*)`,
    '(?<sign><>|<=|>=|[-+*/^&=<>(),;%{}:!#])',
  ]
    .join('|')
    .replace(/^/, '^(?:')
    .replace(/$/, ')'),
  'u',
);

function plainWord(word: string): string {
  return word
    .replace(
      /^(?:legacy\.|_xlfn\.|_xlws\.|com\.sun\.star\.sheet\.addin\.\w+\.|COM\.MICROSOFT\.|ORG\.LIBREOFFICE\.)+/i,
      '',
    )
    .toLowerCase();
}

/** `Sheet!$A$3:$A$9` or `'My sheet'!B2`. */
function plainReference(text: string): FormulaReference {
  const cut = text.lastIndexOf('!');
  return corners(cut < 0 ? undefined : unquoted(text.slice(0, cut)), text.slice(cut + 1).split(':'));
}

/** `[.A3]`, `[$Sheet.$A$3:.$A$9]` (OpenFormula, 5.8). */
function openReference(text: string): FormulaReference {
  let sheet: string | undefined;
  const parts = text
    .slice(1, -1)
    .split(/:(?=(?:[^']*'[^']*')*[^']*$)/)
    .map((part, at) => {
      const cut = part.lastIndexOf('.');
      if (at === 0 && cut > 0) sheet = unquoted(part.slice(0, cut));
      return part.slice(cut + 1);
    });
  return corners(sheet, parts);
}

function unquoted(name: string): string {
  const bare = name.replace(/^\$/, '');
  return bare.startsWith("'") ? bare.slice(1, -1).replaceAll("''", "'") : bare;
}

function corners(sheet: string | undefined, parts: readonly string[]): FormulaReference {
  return { sheet, corners: parts.map((part) => part.toUpperCase()) };
}

/** `TRUE()` and `TRUE` are one. */
function withoutTruthBrackets(tokens: readonly Token[]): Token[] {
  const isText = (token: Token | undefined, text: string): boolean =>
    token !== undefined && 'text' in token && token.text === text;
  return tokens.filter((token, at) => {
    const first = isText(token, '(') && isText(tokens[at + 1], ')') ? at - 1 : undefined;
    const second = isText(token, ')') && isText(tokens[at - 1], '(') ? at - 2 : undefined;
    const before = tokens[first ?? second ?? -1];
    return !(isText(before, 'true') || isText(before, 'false'));
  });
}
