import { strFromU8, strToU8, unzipSync, zipSync } from 'fflate';
import { fontName, textSize } from './palette.ts';

/**
 * Packs the file that exceljs wrote once more, to mend five things: its entries carry the time of writing and its
 * bars random ids, so equal books gave unequal bytes; empty cells are in a font of its own; its links inside
 * the workbook are also listed as links to files, which some programs then follow; names of sheets that look
 * like cells go unquoted; and it lets two characters through that no XML may hold.
 *
 * @param date ISO date that every entry is stamped with
 */
export function packFile(bytes: Uint8Array, date: string): Uint8Array {
  const parts = unzipSync(bytes);
  const packed: Record<string, Uint8Array> = {};
  for (const name of Object.keys(parts).sort(inFileOrder)) {
    const part = parts[name];
    if (part === undefined || name.endsWith('/')) continue;
    packed[name] = /\.(xml|rels)$/.test(name) ? strToU8(wellFormed(tidy(name, strFromU8(part)))) : part;
  }
  return zipSync(packed, { level: 6, mtime: stamp(date) });
}

/** The list of content types comes first, as readers that take the file as a stream expect. */
function inFileOrder(one: string, other: string): number {
  const rank = (name: string): number =>
    name === '[Content_Types].xml' ? 0 : name.startsWith('_rels') ? 1 : 2;
  return rank(one) - rank(other) || (one < other ? -1 : 1);
}

/** Puts the mark of a lost letter where a character stands that XML 1.0 (2.2, Char) has not; halves of letters got one on the way. */
function wellFormed(xml: string): string {
  return xml.replace(/[\uFFFE\uFFFF]/g, '\uFFFD');
}

function tidy(name: string, xml: string): string {
  if (name === 'xl/styles.xml') {
    const plain = `<font><color rgb="FF22303C"/><sz val="${textSize}"/><name val="${fontName}"/><family val="2"/></font>`;
    return xml.replace(/<font>(?:(?!<\/font>)[\s\S])*Calibri(?:(?!<\/font>)[\s\S])*<\/font>/, plain);
  }
  if (name === 'xl/workbook.xml') {
    // A sheet called Q1 has to be quoted, or its name reads as a cell; exceljs quotes spaces only.
    return xml.replace(/(<definedName [^>]*>)(\w+)!/g, "$1'$2'!");
  }
  if (name.startsWith('xl/worksheets/_rels/')) {
    return xml.replace(/<Relationship [^>]*relationships\/hyperlink"[^>]*\/>/g, '');
  }
  if (name.startsWith('xl/worksheets/')) {
    const ids = new Map<string, string>();
    return xml
      .replace(/(<hyperlink [^>]*?) r:id="[^"]*"/g, '$1')
      .replace(
        /(<x14:id>|<x14:cfRule type="dataBar" id=")(\{[0-9A-Fa-f-]{36}\})/g,
        (_, before: string, id: string) => {
          const known = ids.get(id) ?? `{00000000-0000-4000-8000-${String(ids.size + 1).padStart(12, '0')}}`;
          ids.set(id, known);
          return before + known;
        },
      );
  }
  return xml;
}

/** The format stores local time without a zone: midnight here is the same bytes everywhere. It starts in 1980. */
export function stamp(date: string): Date {
  const [year = 1980, month = 1, day = 1] = date.slice(0, 10).split('-').map(Number);
  return new Date(Math.max(year, 1980), month - 1, day);
}
