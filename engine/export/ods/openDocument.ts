import type { Workbook, Worksheet } from 'exceljs';
import { ArchiveWriter } from '../../archive/archiveWriter.ts';
import type { Records } from '../pages/records.ts';
import { fontName } from '../palette.ts';
import { type Attributes, element, escapedText } from '../xml.ts';
import { plainType, textProperties } from './cellProperties.ts';
import { targetAddress } from './openFormula.ts';
import { masterPageName, pageStyles } from './pages.ts';
import { settings } from './settings.ts';
import { StyleStore } from './styleStore.ts';
import { type Piece, table } from './table.ts';
import { Validations } from './validations.ts';

const mediaType = 'application/vnd.oasis.opendocument.spreadsheet';
const version = '1.3';

const oasis = 'urn:oasis:names:tc:opendocument:xmlns:';
const documentfoundation = 'urn:org:documentfoundation:names:experimental:';
const namespaces: Attributes = {
  'xmlns:office': `${oasis}office:1.0`,
  'xmlns:table': `${oasis}table:1.0`,
  'xmlns:text': `${oasis}text:1.0`,
  'xmlns:style': `${oasis}style:1.0`,
  'xmlns:number': `${oasis}datastyle:1.0`,
  'xmlns:fo': `${oasis}xsl-fo-compatible:1.0`,
  'xmlns:svg': `${oasis}svg-compatible:1.0`,
  'xmlns:meta': `${oasis}meta:1.0`,
  'xmlns:config': `${oasis}config:1.0`,
  'xmlns:of': `${oasis}of:1.2`,
  'xmlns:dc': 'http://purl.org/dc/elements/1.1/',
  'xmlns:xlink': 'http://www.w3.org/1999/xlink',
  'xmlns:ooo': 'http://openoffice.org/2004/office',
  'xmlns:calcext': `${documentfoundation}calc:xmlns:calcext:1.0`,
  'xmlns:loext': `${documentfoundation}office:xmlns:loext:1.0`,
};

const fontFaces = element(
  'office:font-face-decls',
  {},
  element('style:font-face', {
    'style:name': fontName,
    'svg:font-family': fontName,
    'style:font-family-generic': 'swiss',
    'style:font-pitch': 'variable',
  }),
);

/**
 * A workbook as an OpenDocument spreadsheet (ODF 1.3), from the same object that is written as .xlsx: what the
 * workbook looks like is decided there. The same workbook gives the same bytes.
 *
 * @param date ISO date that the workbook is from
 */
export function openDocument(
  book: Workbook,
  date: string,
  records: ReadonlyMap<Worksheet, Records> = new Map(),
): Uint8Array {
  const pages = book.worksheets;
  const styles = new StyleStore();
  const validations = new Validations();
  const tables = pages.flatMap((page, at): Piece[] =>
    table(
      page,
      { styles, validations, masterPage: masterPageName(at), day: `${date}T00:00:00` },
      records.get(page),
    ),
  );
  const { layouts, masterPages } = pageStyles(pages);
  const content = document(
    'content',
    fontFaces,
    element('office:automatic-styles', {}, styles.automatic()),
    element(
      'office:body',
      {},
      element(
        'office:spreadsheet',
        {},
        calculationSettings,
        String(validations),
        tablesMark,
        namedRanges(book),
      ),
    ),
  );
  const [before = '', after = ''] = content.split(tablesMark);
  const common = document(
    'styles',
    fontFaces,
    element('office:styles', {}, defaultStyles, styles.common()),
    element('office:automatic-styles', {}, layouts),
    element('office:master-styles', {}, masterPages),
  );
  return pack(
    {
      'meta.xml': document('meta', meta(book)),
      'styles.xml': common,
      'content.xml': whole([before, ...tables, after]),
      'settings.xml': document('settings', settings(pages)),
    },
    date,
  );
}

/** Where the tables go: a character that no text of the file can hold. */
const tablesMark = '\uFFFF';

function* whole(pieces: readonly Piece[]): Generator<string> {
  for (const piece of pieces) {
    if (typeof piece === 'string') yield piece;
    else yield* piece;
  }
}

/** As formulas of .xlsx files mean it: searches take whole cells and patterns, whatever the size of letters. */
const calculationSettings = element('table:calculation-settings', {
  'table:case-sensitive': false,
  'table:search-criteria-must-apply-to-whole-cell': true,
  'table:use-regular-expressions': false,
  'table:use-wildcards': true,
  'table:automatic-find-labels': false,
});

const defaultStyles =
  element(
    'style:default-style',
    { 'style:family': 'table-cell' },
    element('style:text-properties', textProperties(plainType)),
  ) +
  element(
    'style:style',
    { 'style:name': 'Default', 'style:family': 'table-cell' },
    element('style:table-cell-properties', {
      'style:vertical-align': 'bottom',
      'style:cell-protect': 'protected',
    }),
  );

function namedRanges(book: Workbook): string {
  const names = book.definedNames.model.map(({ name, ranges }) => {
    const [range] = ranges;
    if (range === undefined) throw new Error(`A name of nothing: ${name}`);
    const cell = `$${targetAddress(range)}`;
    return element('table:named-range', {
      'table:name': name,
      'table:base-cell-address': cell,
      'table:cell-range-address': cell,
    });
  });
  return names.length === 0 ? '' : element('table:named-expressions', {}, ...names);
}

function meta({ creator, lastModifiedBy, created, modified, title }: Workbook): string {
  const moment = (time: Date): string => time.toISOString().replace(/\.\d+Z$/, '');
  return element(
    'office:meta',
    {},
    element('meta:generator', {}, escapedText(creator)),
    element('dc:title', {}, escapedText(title)),
    element('meta:initial-creator', {}, escapedText(creator)),
    element('dc:creator', {}, escapedText(lastModifiedBy)),
    element('meta:creation-date', {}, moment(created)),
    element('dc:date', {}, moment(modified)),
  );
}

function document(part: string, ...inside: readonly string[]): string {
  const root = element(`office:document-${part}`, { ...namespaces, 'office:version': version }, ...inside);
  return `<?xml version="1.0" encoding="UTF-8"?>\n${root}`;
}

/** The type of the file comes first and is not compressed, so that it can be read off (ODF 1.3 part 2, 3.3). */
function pack(parts: Readonly<Record<string, Piece>>, date: string): Uint8Array {
  const entry = (path: string, type: string, more: Attributes = {}): string =>
    element('manifest:file-entry', { 'manifest:full-path': path, ...more, 'manifest:media-type': type });
  const manifest = element(
    'manifest:manifest',
    { 'xmlns:manifest': `${oasis}manifest:1.0`, 'manifest:version': version },
    entry('/', mediaType, { 'manifest:version': version }),
    ...Object.keys(parts).map((path) => entry(path, 'text/xml')),
  );
  const archive = new ArchiveWriter(date);
  archive.add('mimetype', mediaType, 'stored');
  for (const [path, xml] of Object.entries(parts)) archive.add(path, xml);
  archive.add('META-INF/manifest.xml', `<?xml version="1.0" encoding="UTF-8"?>\n${manifest}`);
  return archive.bytes();
}
