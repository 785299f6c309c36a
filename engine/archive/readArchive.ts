import { Inflate } from 'fflate';
import { crc32 } from './crc32.ts';
import { type Entry, listEntries } from './listEntries.ts';

/** Why a file is not read: told in words by whoever shows it. */
export type ArchiveFault = 'not-whole' | 'locked' | 'damaged' | 'too-large';

export class UnreadableArchive extends Error {
  readonly fault: ArchiveFault;
  constructor(fault: ArchiveFault) {
    super(fault);
    this.fault = fault;
  }
}

/** A workbook has some dozens of parts; one with pictures and charts some hundreds. */
const mostEntries = 5000;
/** All sheets of ten thousand products take 0.5 GB as .xlsx, and 1 GB in the one part that .ods has for them. */
const mostBytesOfEntry = 1_500_000_000;
const mostBytes = 2_000_000_000;
/** Of a part that is held as a whole: texts and styles that sheets share, and the lists of parts. */
const mostBytesHeld = 200_000_000;
/** Sheets shrink to a tenth or a fiftieth; what shrinks much more, and is large, was made to fill a memory. */
const mostRatio = 250;
const smallBytes = 20_000_000;
/** Compressed bytes taken at once: so many can grow to 16 MB before they are counted. */
const slice = 16_384;

/** The parts of an archive that are asked for, by name. Nothing is unpacked before all sizes were looked at. */
export interface Archive {
  readonly names: readonly string[];
  has(name: string): boolean;
  /** The bytes of one part, which must not be large; undefined where there is none of that name. */
  read(name: string): Uint8Array | undefined;
  /** The same piece by piece, for parts that may be large: whether it was whole is known at its end. */
  pieces(name: string): Iterable<Uint8Array> | undefined;
}

/** Opens an archive; throws `UnreadableArchive` where it is none, or none that should be unpacked. */
export function readArchive(bytes: Uint8Array): Archive {
  const entries = listEntries(bytes);
  if (entries === undefined) throw new UnreadableArchive('not-whole');
  if (entries.length > mostEntries) throw new UnreadableArchive('too-large');
  const total = entries.reduce((sum, { size }) => sum + size, 0);
  if (total > mostBytes || entries.some(isTooLarge)) throw new UnreadableArchive('too-large');
  if (entries.some(({ encrypted }) => encrypted)) throw new UnreadableArchive('locked');
  const byName = new Map(entries.map((entry) => [entry.name, entry]));
  // Two parts of one name: programs differ in which of them they read.
  if (byName.size < entries.length) throw new UnreadableArchive('damaged');
  if (entries.some((entry) => !entry.agrees || leadsAway(entry.name)) || overlap(entries))
    throw new UnreadableArchive('damaged');
  let unpackedBytes = 0;
  const pieces = (name: string): Iterable<Uint8Array> | undefined => {
    const entry = byName.get(name);
    if (entry === undefined) return undefined;
    // What is asked for again is unpacked again.
    unpackedBytes += entry.size;
    if (unpackedBytes > mostBytes) throw new UnreadableArchive('too-large');
    return unpacked(bytes, entry);
  };
  return {
    names: [...byName.keys()],
    has: (name) => byName.has(name),
    read: (name) => {
      if ((byName.get(name)?.size ?? 0) > mostBytesHeld) throw new UnreadableArchive('too-large');
      const found = pieces(name);
      return found === undefined ? undefined : joined([...found]);
    },
    pieces,
  };
}

function joined(pieces: readonly Uint8Array[]): Uint8Array {
  const whole = new Uint8Array(pieces.reduce((length, piece) => length + piece.length, 0));
  let at = 0;
  for (const piece of pieces) {
    whole.set(piece, at);
    at += piece.length;
  }
  return whole;
}

function isTooLarge({ size, packed }: Entry): boolean {
  return size > mostBytesOfEntry || (size > smallBytes && size > packed * mostRatio);
}

/** Nothing is unpacked onto a disk; but a name that would lead out of a folder was made to do harm. */
function leadsAway(name: string): boolean {
  return (
    name.startsWith('/') || /^[a-z]:/i.test(name) || name.split('/').includes('..') || name.includes('\0')
  );
}

/** Whether parts share bytes: so a small archive can hold the same large matter many times. */
function overlap(entries: readonly Entry[]): boolean {
  const inOrder = [...entries].sort((one, other) => one.local - other.local);
  return inOrder.some((entry, at) => {
    const next = inOrder[at + 1];
    return next !== undefined && entry.start + entry.packed > next.local;
  });
}

/** What an entry really holds: it must be of the length that was said, and have the check sum. */
function* unpacked(bytes: Uint8Array, { start, packed, size, sum, stored }: Entry): Generator<Uint8Array> {
  if (start + packed > bytes.length) throw new UnreadableArchive('damaged');
  const body = bytes.subarray(start, start + packed);
  let length = 0;
  let checksum = 0;
  for (const piece of stored ? [body] : inflated(body)) {
    length += piece.length;
    if (length > size) throw new UnreadableArchive('damaged');
    checksum = crc32(piece, checksum);
    yield piece;
  }
  if (length !== size || checksum !== sum) throw new UnreadableArchive('damaged');
}

function* inflated(body: Uint8Array): Generator<Uint8Array> {
  let pieces: Uint8Array[] = [];
  const stream = new Inflate((piece) => {
    pieces.push(piece);
  });
  for (let at = 0; at < body.length; at += slice) {
    try {
      stream.push(body.subarray(at, at + slice), at + slice >= body.length);
    } catch {
      throw new UnreadableArchive('damaged');
    }
    yield* pieces;
    pieces = [];
  }
}
