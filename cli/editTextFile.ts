import { existsSync, readFileSync } from 'node:fs';
import writeFileAtomic from 'write-file-atomic';
import { writing } from './hindered.ts';

/**
 * Changes a text file in place, whole or not at all. Its character set and byte-order mark stay; a file that
 * is missing is made, in UTF-8.
 *
 * @param shown the file as the user knows it
 * @param change gets the text, without a byte-order mark; undefined where there is no file
 */
export function editTextFile(
  file: string,
  shown: string,
  change: (text: string | undefined) => string,
): void {
  const bytes = existsSync(file) ? readFileSync(file) : undefined;
  const utf16 = bytes?.[0] === 0xff && bytes[1] === 0xfe;
  const marked = utf16 || (bytes?.[0] === 0xef && bytes[1] === 0xbb && bytes[2] === 0xbf);
  const before =
    bytes === undefined ? undefined : new TextDecoder(utf16 ? 'utf-16le' : 'utf-8').decode(bytes);
  const after = `${marked ? '\uFEFF' : ''}${change(before)}`;
  writing(shown, () => writeFileAtomic.sync(file, Buffer.from(after, utf16 ? 'utf16le' : 'utf8')));
}
