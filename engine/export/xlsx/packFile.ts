import type { Worksheet } from 'exceljs';
import { strFromU8, unzipSync } from 'fflate';
import { ArchiveWriter } from '../../archive/archiveWriter.ts';
import type { Records } from '../pages/records.ts';
import { fontName, textSize } from '../palette.ts';
import { withRecords } from './recordRows.ts';

/**
 * Packs the file that exceljs wrote once more, to mend five things: its entries carry the time of writing and its
 * bars random ids, so equal books gave unequal bytes; empty cells are in a font of its own; its links inside
 * the workbook are also listed as links to files, which some programs then follow; names of sheets that look
 * like cells go unquoted; and it lets two characters through that no XML may hold. The records of sheets come
 * in here.
 *
 * @param date ISO date that every entry is stamped with
 */
export function packFile(
  bytes: Uint8Array,
  date: string,
  records: ReadonlyMap<Worksheet, Records> = new Map(),
): Uint8Array {
  const parts = unzipSync(bytes);
  const recordsOf = new Map([...records].map(([page, own]) => [`xl/worksheets/sheet${page.id}.xml`, own]));
  const archive = new ArchiveWriter(date);
  for (const name of Object.keys(parts).sort(inFileOrder)) {
    const part = parts[name];
    if (part === undefined || name.endsWith('/')) continue;
    if (!/\.(xml|rels)$/.test(name)) {
      archive.add(name, part);
      continue;
    }
    const xml = wellFormed(tidy(name, strFromU8(part)));
    const own = recordsOf.get(name);
    archive.add(name, own === undefined ? xml : withRecords(xml, own));
  }
  return archive.bytes();
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
