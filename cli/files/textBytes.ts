/** A text in the character set of the file that it takes the place of, with its byte-order mark; a new one in UTF-8. */
export function encodedLike(before: Uint8Array | undefined, text: string): Buffer {
  const utf16 = before !== undefined && isUtf16(before);
  const marked = utf16 || (before?.[0] === 0xef && before[1] === 0xbb && before[2] === 0xbf);
  return Buffer.from(`${marked ? '\uFEFF' : ''}${text}`, utf16 ? 'utf16le' : 'utf8');
}

function isUtf16(bytes: Uint8Array): boolean {
  return bytes[0] === 0xff && bytes[1] === 0xfe;
}
