import type { Archive } from '../../../archive/readArchive.ts';
import { documentTitle } from '../documentTitle.ts';
import { readXml } from '../readXml.ts';
import { type SavedWorkbook, UnreadableWorkbook } from '../savedWorkbook.ts';
import { ContentReader } from './contentReader.ts';

/** Reads a workbook of the OpenDocument format (ODF 1.3 part 3), whoever saved it. */
export function readOds(archive: Archive): SavedWorkbook {
  const manifest = archive.read('META-INF/manifest.xml');
  if (manifest !== undefined) {
    readXml(manifest, {
      open: (name) => {
        if (name.endsWith('encryption-data')) throw new UnreadableWorkbook('locked');
      },
      close: () => undefined,
    });
  }
  const content = archive.pieces('content.xml');
  if (content === undefined) throw new UnreadableWorkbook('damaged');
  const reader = new ContentReader();
  readXml(content, reader);
  return { format: 'ods', documentTitle: documentTitle(archive.read('meta.xml')), sheets: reader.sheets };
}
