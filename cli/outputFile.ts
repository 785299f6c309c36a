import { existsSync } from 'node:fs';
import { basename, resolve } from 'node:path';
import { Hindrance, type Io } from './io.ts';

/**
 * The file that a command writes, in full. Refuses a name without its ending, and one that is there already.
 *
 * @param given as the user calls it
 * @param wanted its ending, such as `.xlsx`; an example of a name; and what would be lost by writing over it
 */
export function outputFile(
  io: Io,
  given: string,
  replace: boolean,
  wanted: { readonly ending: string; readonly example: string; readonly lost: string },
): string {
  const { ending, example, lost } = wanted;
  if (!given.toLowerCase().endsWith(ending))
    throw new Hindrance(`“${given}” does not end in ${ending}.\n  Give a file name such as ${example}.`, 2);
  // A file that is called by nothing but its ending is hidden from its maker.
  if (basename(given).toLowerCase() === ending)
    throw new Hindrance(`“${given}” has an ending and no name.\n  Give a file name such as ${example}.`, 2);
  const file = resolve(io.folder, given);
  if (existsSync(file) && !replace) {
    throw new Hindrance(
      `${given} is there already; nothing was written.\n  ${lost} Choose another name with --out, or add --replace.`,
    );
  }
  return file;
}
