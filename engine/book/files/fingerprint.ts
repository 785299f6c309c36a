/**
 * A fingerprint of a text, 16 hexadecimal digits: FNV-1a (Fowler, Noll, Vo) over its UTF-16 units, in two
 * halves with different starts. It tells whether something was changed by accident; it is no lock.
 */
export function fingerprint(text: string): string {
  let one = 0x811c9dc5;
  let other = 0x9747b28c;
  for (let at = 0; at < text.length; at += 1) {
    const unit = text.charCodeAt(at);
    one = Math.imul(one ^ (unit & 0xff), 0x01000193);
    one = Math.imul(one ^ (unit >>> 8), 0x01000193);
    other = Math.imul(other ^ (unit >>> 8), 0x01000193);
    other = Math.imul(other ^ (unit & 0xff), 0x01000193);
  }
  return hex(one) + hex(other);
}

function hex(half: number): string {
  return (half >>> 0).toString(16).padStart(8, '0');
}
