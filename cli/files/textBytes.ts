/**
 * Text is UTF-8, or UTF-16 where the byte-order mark says so, as some spreadsheet programs save "Unicode text".
 * What is neither keeps the mark of a lost letter: whether that matters is for the engine to say, which knows
 * whether anything reads the file.
 */
export function decode(bytes: Uint8Array): string {
  return new TextDecoder(isUtf16(bytes) ? 'utf-16le' : 'utf-8').decode(bytes);
}

/** A text in the character set of the file that it takes the place of, with its byte-order mark; a new one in UTF-8. */
export function encodedLike(before: Uint8Array | undefined, text: string): Buffer {
  const utf16 = before !== undefined && isUtf16(before);
  const marked = utf16 || (before?.[0] === 0xef && before[1] === 0xbb && before[2] === 0xbf);
  return Buffer.from(`${marked ? '\uFEFF' : ''}${text}`, utf16 ? 'utf16le' : 'utf8');
}

function isUtf16(bytes: Uint8Array): boolean {
  return bytes[0] === 0xff && bytes[1] === 0xfe;
}
