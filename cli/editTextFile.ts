import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { decodeText } from '../engine/index.ts';
import { locked } from './files/bookLock.ts';
import { finish } from './files/change.ts';
import { inBook } from './files/inBook.ts';
import { encodedLike } from './files/textBytes.ts';
import { writeWhole } from './files/wholeFile.ts';
import { reading, writing } from './hindered.ts';

/**
 * Changes a text file of a book in place, whole or not at all, and while no other run writes into the book. Its
 * character set and byte-order mark stay; a file that is missing is made, in UTF-8.
 *
 * @param name the file within the book
 * @param change gets the text, without a byte-order mark; undefined where there is no file
 */
export function editTextFile(
  folder: string,
  name: string,
  change: (text: string | undefined) => string,
): void {
  locked(folder, name, () => {
    finish(folder);
    const path = join(
      folder,
      writing(name, () => inBook(folder, name)),
    );
    const before = existsSync(path) ? reading(name, () => readFileSync(path)) : undefined;
    const after = change(before === undefined ? undefined : decodeText(before));
    writeWhole({ shown: name, path, bytes: encodedLike(before, after) });
  });
}
