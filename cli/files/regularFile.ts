import { readFileSync, type Stats, statSync } from 'node:fs';
import { reading } from '../hindered.ts';
import { Hindrance } from '../io.ts';

/**
 * Reads a file that the user named, or that a book holds. What is no file (a pipe, a device) would never end, and one
 * beyond what a command can use is not begun.
 *
 * @param most bytes
 * @param tooLarge what is said of a larger one, after its name
 */
export function readRegularFile(
  shown: string,
  path: string,
  limit: { readonly most: number; readonly tooLarge: string },
): Buffer {
  const found = reading(shown, () => statSync(path));
  refuseIrregular(shown, found);
  if (found.size > limit.most) throw new Hindrance(`${shown} ${limit.tooLarge}`);
  return reading(shown, () => readFileSync(path));
}

function refuseIrregular(shown: string, found: Stats): void {
  if (found.isFile()) return;
  throw new Hindrance(
    `${shown} could not be read: it is ${found.isDirectory() ? 'a folder' : 'a device or a pipe'}, not a file.`,
  );
}
