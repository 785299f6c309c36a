import { type Archive, readArchive, UnreadableArchive } from '../../archive/readArchive.ts';
import { readOds } from './ods/readOds.ts';
import { readXml, UnreadableXml } from './readXml.ts';
import { type SavedWorkbook, UnreadableWorkbook } from './savedWorkbook.ts';
import { readXlsx } from './xlsx/readXlsx.ts';

/**
 * Reads a workbook that any spreadsheet program saved, by what it holds and not by its name. Throws
 * `UnreadableWorkbook` where it is none, or cannot be read for certain.
 *
 * exceljs, which writes our workbooks, does not read them here: it loses cached zeros and false, has no defence
 * against archives that grow without bound, and knows nothing of OpenDocument.
 */
export function readSavedWorkbook(bytes: Uint8Array): SavedWorkbook {
  if (startsWith(bytes, compoundMark))
    throw new UnreadableWorkbook(holds(bytes, 'EncryptedPackage') ? 'locked' : 'old');
  if (bytes.length === 0) throw new UnreadableWorkbook('empty');
  if (!startsWith(bytes, [0x50, 0x4b])) throw new UnreadableWorkbook('other');
  try {
    return readParts(readArchive(bytes));
  } catch (error) {
    if (error instanceof UnreadableArchive) throw new UnreadableWorkbook(error.fault);
    if (error instanceof UnreadableXml) throw new UnreadableWorkbook('damaged');
    throw error;
  }
}

/** The older container of office programs, in which an encrypted workbook is wrapped as well. */
const compoundMark = [0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1, 0x1a, 0xe1];

function startsWith(bytes: Uint8Array, mark: readonly number[]): boolean {
  return mark.every((byte, at) => bytes[at] === byte);
}

/** Whether a name of that container stands in the file, in its two bytes a letter. */
function holds(bytes: Uint8Array, name: string): boolean {
  return new TextDecoder('utf-16le').decode(bytes.subarray(0, bytes.length & ~1)).includes(name);
}

function readParts(archive: Archive): SavedWorkbook {
  const mimetype = archive.read('mimetype');
  if (mimetype !== undefined) {
    const type = new TextDecoder().decode(mimetype).trim();
    if (/^application\/vnd\.oasis\.opendocument\.spreadsheet(-template)?$/.test(type))
      return readOds(archive);
    throw new UnreadableWorkbook('other');
  }
  const types = archive.read('[Content_Types].xml');
  if (types === undefined) throw new UnreadableWorkbook('other');
  let path = '';
  let binary = false;
  readXml(types, {
    open: (_, { PartName = '', ContentType = '' }) => {
      if (/spreadsheetml\.(sheet|template)\.main\+xml$/.test(ContentType)) path = PartName.replace(/^\//, '');
      if (/ms-excel\.(sheet|template)\.macroEnabled\.main\+xml$/i.test(ContentType))
        path = PartName.replace(/^\//, '');
      if (/sheet\.binary/i.test(ContentType)) binary = true;
    },
    close: () => undefined,
  });
  if (path === '') throw new UnreadableWorkbook(binary ? 'binary' : 'other');
  return readXlsx(archive, path);
}
