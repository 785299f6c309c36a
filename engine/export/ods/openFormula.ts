/**
 * Functions that OpenFormula calls otherwise than .xlsx files do, or has not: those carry the prefix under which
 * programs know them. Its own CEILING and FLOOR want both arguments of one sign, and -3 in steps of 0.05 is -3.
 */
const otherNames: ReadonlyMap<string, string> = new Map([
  ['CEILING', 'COM.MICROSOFT.CEILING'],
  ['FLOOR', 'COM.MICROSOFT.FLOOR'],
  ['NORMSINV', 'LEGACY.NORMSINV'],
  ['MAXIFS', 'COM.MICROSOFT.MAXIFS'],
  ['MINIFS', 'COM.MICROSOFT.MINIFS'],
  ['SWITCH', 'COM.MICROSOFT.SWITCH'],
]);

/** One token of a formula as the workbook spells it; tried in this order, as a name may begin like a number or a cell. */
const token = new RegExp(
  [
    '(?<text>"(?:[^"]|"")*")',
    "(?:(?:'(?<quoted>(?:[^']|'')*)'|(?<sheet>[A-Za-z]+))!)?(?<from>\\$?[A-Z]{1,3}\\$?[1-9]\\d*)(?::(?<to>\\$?[A-Z]{1,3}\\$?[1-9]\\d*))?(?![\\w.(!])",
    '(?:_xlfn\\.)?(?<call>[A-Z][A-Z0-9.]*)(?=\\()',
    '(?<name>[a-z]\\w*\\.[a-z]\\w*)',
    '(?<number>\\d+(?:\\.\\d+)?(?:[eE][+-]?\\d+)?)',
    '(?<comma>,)',
    '(?<sign><=|>=|<>|[-+*/^&=<>()])',
  ].join('|'),
  'y',
);

/**
 * A formula as the workbook spells it (A1, commas), in OpenFormula (ODF 1.3 part 4): references in brackets with
 * a point after the sheet, arguments apart by semicolons. Whatever the workbook's spelling has not is our fault.
 *
 * @param formula without its leading `=`
 * @returns the same without the leading `of:=`
 */
export function openFormula(formula: string): string {
  let written = '';
  token.lastIndex = 0;
  while (token.lastIndex < formula.length) {
    const at = token.lastIndex;
    const groups = token.exec(formula)?.groups;
    if (groups === undefined) throw new Error(`Formula not understood at “${formula.slice(at, at + 40)}”`);
    const { text, quoted, sheet, from, to, call, name, number, comma, sign } = groups;
    if (from !== undefined) written += reference(quoted?.replaceAll("''", "'") ?? sheet, from, to);
    else if (call !== undefined) written += otherNames.get(call) ?? call;
    else if (comma !== undefined) written += ';';
    else written += text ?? name ?? number ?? sign ?? '';
  }
  return written;
}

/** A number that may be that of a row; where it is not, it is carried over just the same. */
const rowNumber = /(?<=[A-Z$])\d+(?![\w.(!])/g;
/** Stands for a row while a formula is taken apart. */
const standIn = 100_000_000;

/**
 * The same for many formulas. Those of a column differ in the numbers of rows: what one of them says in OpenFormula
 * the others say too, but for these.
 */
export function openFormulas(): (formula: string) => string {
  const known = new Map<string, readonly string[]>();
  return (formula) => {
    const rows = formula.match(rowNumber) ?? [];
    const bare = formula.replace(rowNumber, '0');
    const between = known.get(bare) ?? betweenRows(formula);
    known.set(bare, between);
    // A formula that holds such a number itself is read by itself.
    if (between.length !== rows.length + 1) return openFormula(formula);
    let written = between[0] ?? '';
    for (let at = 0; at < rows.length; at += 1) written += `${rows[at]}${between[at + 1]}`;
    return written;
  };
}

/** What stands before, between and behind the rows. */
function betweenRows(formula: string): readonly string[] {
  let at = 0;
  return openFormula(formula.replace(rowNumber, () => String(standIn + at++))).split(/1\d{8}(?!\d)/);
}

function reference(sheet: string | undefined, from: string, to: string | undefined): string {
  const page = sheet === undefined ? '' : `$${quotedSheet(sheet)}`;
  return `[${page}.${from}${to === undefined ? '' : `:.${to}`}]`;
}

/** Quoted always: unquoted, a name with a space or a point would end there. */
function quotedSheet(title: string): string {
  return `'${title.replaceAll("'", "''")}'`;
}

/** A cell or range as attributes hold it, the sheet at both ends: `'Price list'.B3:'Price list'.B20`. */
export function rangeAddress(title: string, range: string): string {
  const page = quotedSheet(title);
  return range
    .split(':')
    .map((cell) => `${page}.${cell}`)
    .join(':');
}

/** A cell that a link or a name points to, such as `'Price list'!$B$3`, as attributes hold it. */
export function targetAddress(target: string): string {
  const found = /^(?:'((?:[^']|'')+)'|([^'!]+))!(\$?[A-Z]+\$?\d+)$/.exec(target);
  if (found === null) throw new Error(`No cell of the workbook: ${target}`);
  const [, quoted, bare = '', cell = ''] = found;
  return rangeAddress(quoted?.replaceAll("''", "'") ?? bare, cell);
}
