import { strToU8, ZipDeflate, ZipPassThrough } from 'fflate';
import { endMark, entryMark, localMark } from './format.ts';

/** Text is packed in pieces of about this many characters. */
const pieceLength = 1 << 16;

/** An entry that has been packed. */
interface Packed {
  readonly name: Uint8Array;
  /** Where its own head stands. */
  readonly offset: number;
  /** 0 as it is, 8 deflated. */
  readonly method: number;
  readonly checksum: number;
  readonly packedSize: number;
  readonly size: number;
}

/** Version 2.0 of the format: entries may be deflated. */
const formatVersion = 20;
/** Bit 11 of an entry's flags (4.4.4). */
const nameIsUtf8 = 1 << 11;

/**
 * A zip archive that takes its entries piece by piece: of the text that goes in, only a piece is held at a time. The
 * sizes stand at the head of each entry, as readers of OpenDocument want them. The same entries give the same bytes.
 */
export class ArchiveWriter {
  readonly #stamp: number;
  readonly #written: Uint8Array[] = [];
  readonly #entries: Packed[] = [];
  #length = 0;

  /** @param date ISO date that every entry is stamped with; the format begins in 1980 */
  constructor(date: string) {
    const [year = 1980, month = 1, day = 1] = date.slice(0, 10).split('-').map(Number);
    // The time of day, in the lower half, is midnight.
    this.#stamp = ((Math.max(year, 1980) - 1980) << 25) | (month << 21) | (day << 16);
  }

  /** Packs an entry; `stored` leaves it as it is. */
  add(
    name: string,
    content: string | Uint8Array | Iterable<string>,
    how: 'deflated' | 'stored' = 'deflated',
  ): void {
    const packing = how === 'stored' ? new ZipPassThrough(name) : new ZipDeflate(name, { level: 6 });
    const packed: Uint8Array[] = [];
    let packedSize = 0;
    packing.ondata = (error, piece) => {
      if (error !== null) throw error;
      packed.push(piece);
      packedSize += piece.length;
    };
    if (content instanceof Uint8Array) packing.push(content);
    else
      for (const piece of typeof content === 'string' ? [content] : pieces(content))
        packing.push(strToU8(piece));
    packing.push(new Uint8Array(0), true);
    const entry = {
      name: strToU8(name),
      offset: this.#length,
      method: packing.compression,
      checksum: packing.crc,
      packedSize,
      size: packing.size,
    };
    this.#entries.push(entry);
    this.#write(head(localMark, [...this.#common(entry), [entry.name.length, 2], [0, 2]]));
    this.#write(entry.name);
    for (const piece of packed) this.#write(piece);
  }

  /** The archive as it is to be saved. */
  bytes(): Uint8Array {
    const directoryAt = this.#length;
    for (const entry of this.#entries) {
      const { name, offset } = entry;
      this.#write(
        head(entryMark, [
          [formatVersion, 2],
          ...this.#common(entry),
          ...([
            [name.length, 2],
            [0, 2],
            [0, 2],
            [0, 2],
            [0, 2],
            [0, 4],
            [offset, 4],
          ] as const),
        ]),
      );
      this.#write(name);
    }
    const count = this.#entries.length;
    const directoryLength = this.#length - directoryAt;
    this.#write(
      head(endMark, [
        [0, 2],
        [0, 2],
        [count, 2],
        [count, 2],
        [directoryLength, 4],
        [directoryAt, 4],
        [0, 2],
      ]),
    );
    const whole = new Uint8Array(this.#length);
    let at = 0;
    for (const piece of this.#written) {
      whole.set(piece, at);
      at += piece.length;
    }
    return whole;
  }

  /** What stands in both heads of an entry. */
  #common({ name, method, checksum, packedSize, size }: Packed): Field[] {
    return [
      [formatVersion, 2],
      [name.some((byte) => byte > 127) ? nameIsUtf8 : 0, 2],
      [method, 2],
      [this.#stamp, 4],
      [checksum, 4],
      [packedSize, 4],
      [size, 4],
    ];
  }

  #write(piece: Uint8Array): void {
    this.#written.push(piece);
    this.#length += piece.length;
  }
}

/** A number, and the bytes that it takes. */
type Field = readonly [value: number, bytes: 2 | 4];

function head(mark: number, fields: readonly Field[]): Uint8Array {
  const all: readonly Field[] = [[mark, 4], ...fields];
  const view = new DataView(new ArrayBuffer(all.reduce((sum, [, bytes]) => sum + bytes, 0)));
  let at = 0;
  for (const [value, bytes] of all) {
    if (bytes === 2) view.setUint16(at, value, true);
    else view.setUint32(at, value, true);
    at += bytes;
  }
  return new Uint8Array(view.buffer);
}

/** Many short texts as fewer long ones. */
function* pieces(texts: Iterable<string>): Generator<string> {
  let piece = '';
  for (const text of texts) {
    piece += text;
    if (piece.length >= pieceLength) {
      yield piece;
      piece = '';
    }
  }
  yield piece;
}
