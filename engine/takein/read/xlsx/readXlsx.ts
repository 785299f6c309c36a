import type { Archive } from '../../../archive/readArchive.ts';
import { documentTitle } from '../documentTitle.ts';
import { mostSheets, type SavedWorkbook, UnreadableWorkbook } from '../savedWorkbook.ts';
import { readBookPart, readDateStyles, readRelations, readSharedTexts } from './readParts.ts';
import { readSheetPart } from './readSheetPart.ts';

/** Reads a workbook of the .xlsx format, whoever saved it. */
export function readXlsx(archive: Archive, path: string): SavedWorkbook {
  const [, folder = '', name = ''] = /^(.*\/)?([^/]+)$/.exec(path) ?? [];
  const book = archive.read(path);
  const relations = archive.read(`${folder}_rels/${name}.rels`);
  if (book === undefined || relations === undefined) throw new UnreadableWorkbook('damaged');
  const targets = readRelations(relations, folder);
  const named = (ending: string): Uint8Array | undefined => {
    const target = [...targets.values()].find((each) => each.endsWith(ending));
    return target === undefined ? undefined : archive.read(target);
  };
  const { sheets, from1904 } = readBookPart(book);
  const shared = {
    texts: readSharedTexts(named('sharedStrings.xml')),
    dateStyles: readDateStyles(named('styles.xml')),
    from1904,
    count: { cells: 0 },
  };
  // A part that is several sheets would be read as often as it is named.
  if (new Set(sheets.map(({ id }) => targets.get(id) ?? id)).size < sheets.length)
    throw new UnreadableWorkbook('damaged');
  if (sheets.length > mostSheets) throw new UnreadableWorkbook('too-large');
  return {
    format: 'xlsx',
    documentTitle: documentTitle(archive.read('docProps/core.xml')),
    sheets: sheets.flatMap(({ title, id }) => {
      const target = targets.get(id);
      // A sheet that is a chart has no cells.
      if (target !== undefined && !/worksheets\//.test(target)) return [];
      const part = target === undefined ? undefined : archive.pieces(target);
      if (part === undefined) throw new UnreadableWorkbook('damaged');
      return [{ title, ...readSheetPart(part, shared) }];
    }),
  };
}
