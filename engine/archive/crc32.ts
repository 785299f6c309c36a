/** The check sum of an archive's entries: CRC-32 of ISO 3309, reflected, as the ZIP format uses it. */
export function crc32(bytes: Uint8Array, before = 0): number {
  let sum = ~before;
  for (const byte of bytes) sum = (sum >>> 8) ^ table[(sum ^ byte) & 0xff]!;
  return ~sum >>> 0;
}

const table: readonly number[] = Array.from({ length: 256 }, (_, byte) => {
  let entry = byte;
  for (let bit = 0; bit < 8; bit += 1) entry = entry & 1 ? (entry >>> 1) ^ 0xedb88320 : entry >>> 1;
  return entry >>> 0;
});
