import { strFromU8, unzipSync } from 'fflate';

/**
 * Reads the saved values, and nothing else, of an xlsx file: no formulas, no formats. Made for files that
 * LibreOffice wrote, and deliberately free of the library that writes our own workbooks, so that the two
 * cannot share a fault.
 */
export type RecalculatedValue = number | string | boolean | null | { readonly error: string };
export type RecalculatedSheets = ReadonlyMap<string, readonly (readonly RecalculatedValue[])[]>;

const ENTITIES: Readonly<Record<string, string>> = { lt: '<', gt: '>', amp: '&', quot: '"', apos: "'" };

/** XML entities, and the _x000D_ escapes by which xlsx carries characters that XML has no place for. */
function plain(text: string): string {
  if (!text.includes('&') && !text.includes('_x')) return text;
  return text
    .replace(/&(?:#x([0-9a-f]+)|#(\d+)|(\w+));/gi, (all, hex?: string, decimal?: string, name?: string) => {
      if (hex !== undefined) return String.fromCodePoint(Number.parseInt(hex, 16));
      if (decimal !== undefined) return String.fromCodePoint(Number(decimal));
      return ENTITIES[name ?? ''] ?? all;
    })
    .replace(/_x([0-9A-F]{4})_/g, (_, hex: string) => String.fromCharCode(Number.parseInt(hex, 16)));
}

function attribute(tag: string, name: string): string | undefined {
  return new RegExp(`\\s${name}="([^"]*)"`).exec(tag)?.[1];
}

// Kept ready: a sheet has hundreds of thousands of cells.
const CELL_TYPE = /\st="([^"]*)"/;
const CELL_REFERENCE = /\sr="([^"]*)"/;

/** All text of the `<t>` elements inside, phonetic readings left out. */
function textOf(xml: string): string {
  const spoken = xml.replace(/<rPh\b[\s\S]*?<\/rPh>/g, '');
  return [...spoken.matchAll(/<t(?:\s[^>]*)?>([^<]*)<\/t>/g)].map((match) => plain(match[1] ?? '')).join('');
}

/** "AB12" -> row 11, column 27 (both from 0). */
function position(reference: string): readonly [row: number, column: number] {
  const [, letters = '', digits = ''] = /^([A-Z]+)(\d+)$/.exec(reference) ?? [];
  if (letters === '') throw new Error(`not a cell reference: ${reference}`);
  let column = 0;
  for (const letter of letters) column = column * 26 + letter.charCodeAt(0) - 64;
  return [Number(digits) - 1, column - 1];
}

function savedValue(type: string, body: string, shared: readonly string[]): RecalculatedValue {
  const raw = /<v(?:\s[^>]*)?>([^<]*)<\/v>/.exec(body)?.[1];
  if (type === 'inlineStr') return textOf(body);
  // A formula that gives "" is saved as text with an empty value: not the same as an empty cell.
  if (type === 'str') return plain(raw ?? '');
  if (raw === undefined || raw === '') return null;
  if (type === 's') return shared[Number(raw)] ?? null;
  if (type === 'b') return raw === '1' || raw === 'true';
  if (type === 'e') return { error: plain(raw) };
  const number = Number(raw);
  if (Number.isNaN(number)) throw new Error(`not a number in a saved sheet: ${raw}`);
  return number;
}

function rowsOf(xml: string, shared: readonly string[]): readonly (readonly RecalculatedValue[])[] {
  const rows: RecalculatedValue[][] = [];
  for (const [, attributes = '', body = ''] of xml.matchAll(/<c\b([^>]*?)(?:\/>|>([\s\S]*?)<\/c>)/g)) {
    const value = savedValue(CELL_TYPE.exec(attributes)?.[1] ?? 'n', body, shared);
    if (value === null) continue;
    const [row, column] = position(CELL_REFERENCE.exec(attributes)?.[1] ?? '');
    while (rows.length <= row) rows.push([]);
    const cells = rows[row] as RecalculatedValue[];
    while (cells.length < column) cells.push(null);
    cells[column] = value;
  }
  return rows;
}

/**
 * Values by sheet name, in the order of the sheets. Rows and cells after the last value are left out: what
 * is not there was empty. Throws on a file that is no xlsx.
 */
export function readSavedValues(xlsx: Uint8Array): RecalculatedSheets {
  const parts = unzipSync(xlsx, {
    filter: ({ name }) =>
      /^xl\/(workbook\.xml|_rels\/workbook\.xml\.rels|sharedStrings\.xml|worksheets\/[^/]+\.xml)$/.test(name),
  });
  const part = (name: string): string => {
    const bytes = parts[name];
    return bytes === undefined ? '' : strFromU8(bytes);
  };
  const targets = new Map<string, string>();
  for (const [tag] of part('xl/_rels/workbook.xml.rels').matchAll(/<Relationship\b[^>]*>/g)) {
    targets.set(attribute(tag, 'Id') ?? '', attribute(tag, 'Target') ?? '');
  }
  const items = part('xl/sharedStrings.xml').matchAll(/<si>([\s\S]*?)<\/si>|<si\/>/g);
  const shared = Array.from(items, (match) => textOf(match[1] ?? ''));
  const sheets = new Map<string, readonly (readonly RecalculatedValue[])[]>();
  for (const [tag] of part('xl/workbook.xml').matchAll(/<sheet\b[^>]*>/g)) {
    const target = targets.get(attribute(tag, 'r:id') ?? '') ?? '';
    const path = target.startsWith('/') ? target.slice(1) : `xl/${target}`;
    sheets.set(plain(attribute(tag, 'name') ?? ''), rowsOf(part(path), shared));
  }
  if (sheets.size === 0) throw new Error('no sheets found: not an xlsx file?');
  return sheets;
}
