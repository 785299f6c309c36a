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
/** The sheets of ten thousand products are far smaller than this. */
const mostBytesOfEntry = 200_000_000;
const mostBytes = 400_000_000;
/** Sheets shrink to a tenth or a fiftieth; what shrinks much more, and is large, was made to fill a memory. */
const mostRatio = 250;
const smallBytes = 20_000_000;
/** Compressed bytes taken at once: so many can grow to 16 MB before they are counted. */
const slice = 16_384;

/** The parts of an archive that are asked for, by name. Nothing is unpacked before all sizes were looked at. */
export interface Archive {
  readonly names: readonly string[];
  has(name: string): boolean;
  /** The bytes of one part; undefined where there is none of that name. */
  read(name: string): Uint8Array | undefined;
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
  return {
    names: [...byName.keys()],
    has: (name) => byName.has(name),
    read: (name) => {
      const entry = byName.get(name);
      if (entry === undefined) return undefined;
      // What is asked for again is unpacked again.
      unpackedBytes += entry.size;
      if (unpackedBytes > mostBytes) throw new UnreadableArchive('too-large');
      return unpacked(bytes, entry);
    },
  };
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
function unpacked(bytes: Uint8Array, { start, packed, size, sum, stored }: Entry): Uint8Array {
  if (start + packed > bytes.length) throw new UnreadableArchive('damaged');
  const body = bytes.subarray(start, start + packed);
  const whole = stored ? body : inflated(body, size);
  if (whole.length !== size || crc32(whole) !== sum) throw new UnreadableArchive('damaged');
  return whole;
}

function inflated(body: Uint8Array, size: number): Uint8Array {
  const whole = new Uint8Array(size);
  let length = 0;
  const stream = new Inflate((part) => {
    if (length + part.length > size) throw new UnreadableArchive('damaged');
    whole.set(part, length);
    length += part.length;
  });
  try {
    for (let at = 0; at < body.length; at += slice)
      stream.push(body.subarray(at, at + slice), at + slice >= body.length);
  } catch {
    throw new UnreadableArchive('damaged');
  }
  return length === size ? whole : whole.subarray(0, length);
}
