/**
 * A file of the book as text: UTF-8, or UTF-16 where the byte-order mark says so, as some spreadsheet programs save
 * "Unicode text". What is neither keeps the mark of a lost letter: whether that matters is for the reader of the book
 * to say, who knows whether anything needs the file.
 */
export function decodeText(bytes: Uint8Array): string {
  const utf16 = bytes[0] === 0xff && bytes[1] === 0xfe;
  return new TextDecoder(utf16 ? 'utf-16le' : 'utf-8').decode(bytes);
}
