import { endMark, entryMark, localMark } from './format.ts';

/** A part of an archive as its directory tells of it. */
export interface Entry {
  readonly name: string;
  /** Where its own head begins; and whether that says the same as the directory does. */
  readonly local: number;
  readonly agrees: boolean;
  /** Where its bytes begin, and how many there are. */
  readonly start: number;
  readonly packed: number;
  /** Length when unpacked, as said. */
  readonly size: number;
  readonly sum: number;
  readonly stored: boolean;
  readonly encrypted: boolean;
}

const endLength = 22;
const entryLength = 46;
const localLength = 30;
/** A remark at the end of an archive is no longer than this. */
const longestRemark = 0xffff;

/**
 * The entries of a ZIP archive (APPNOTE 6.3.10, sections 4.3 and 4.4) by its directory at the end, without unpacking
 * anything; undefined where the file ends too early, is none, or is of the 64-bit kind, which no workbook needs.
 */
export function listEntries(bytes: Uint8Array): Entry[] | undefined {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const end = endOfDirectory(view);
  if (end === undefined) return undefined;
  const count = view.getUint16(end + 10, true);
  let at = view.getUint32(end + 16, true);
  if (count === 0xffff || at === 0xffffffff) return undefined;
  const entries: Entry[] = [];
  for (let number = 0; number < count; number += 1) {
    if (at + entryLength > view.byteLength || view.getUint32(at, true) !== entryMark) return undefined;
    const nameLength = view.getUint16(at + 28, true);
    const local = view.getUint32(at + 42, true);
    if (local + localLength > view.byteLength || view.getUint32(local, true) !== localMark) return undefined;
    const method = view.getUint16(at + 10, true);
    if (method !== 0 && method !== 8) return undefined;
    const name = nameAt(bytes, at + entryLength, nameLength);
    entries.push({
      name: name.replaceAll('\\', '/'),
      local,
      agrees:
        nameAt(bytes, local + localLength, view.getUint16(local + 26, true)) === name &&
        view.getUint16(local + 8, true) === method &&
        localSizesAgree(view, local, at),
      start: local + localLength + view.getUint16(local + 26, true) + view.getUint16(local + 28, true),
      packed: view.getUint32(at + 20, true),
      size: view.getUint32(at + 24, true),
      sum: view.getUint32(at + 16, true),
      stored: method === 0,
      encrypted: (view.getUint16(at + 8, true) & 1) === 1,
    });
    at += entryLength + nameLength + view.getUint16(at + 30, true) + view.getUint16(at + 32, true);
  }
  return entries;
}

function nameAt(bytes: Uint8Array, at: number, length: number): string {
  return new TextDecoder().decode(bytes.subarray(at, at + length));
}

/** The head of a part may leave its sizes to a record behind it (bit 3 of its flags); else they are those of the directory. */
function localSizesAgree(view: DataView, local: number, at: number): boolean {
  if ((view.getUint16(local + 6, true) & 8) !== 0) return true;
  return (
    view.getUint32(local + 18, true) === view.getUint32(at + 20, true) &&
    view.getUint32(local + 22, true) === view.getUint32(at + 24, true)
  );
}

function endOfDirectory(view: DataView): number | undefined {
  const last = view.byteLength - endLength;
  for (let at = last; at >= Math.max(0, last - longestRemark); at -= 1)
    if (view.getUint32(at, true) === endMark) return at;
  return undefined;
}
