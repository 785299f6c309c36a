import { lstatSync } from 'node:fs';
import { basename, resolve } from 'node:path';
import { writing } from './hindered.ts';
import { Hindrance, type Io } from './io.ts';

/**
 * The file that a command writes, in full. Refuses a name without its ending, one that is
 * there already, and what is no file: a folder, a device, or a link, through which nothing is written.
 *
 * @param given as the user calls it
 * @param wanted its ending, such as `.xlsx`; an example of a name; what would be lost by writing over it; and the
 * option that names it, if not --out
 */
export function outputFile(
  io: Io,
  given: string,
  replace: boolean,
  wanted: {
    readonly ending: string;
    readonly example: string;
    readonly lost: string;
    readonly option?: string;
  },
): string {
  const { ending, example, lost, option = '--out' } = wanted;
  if (!given.toLowerCase().endsWith(ending))
    throw new Hindrance(`“${given}” does not end in ${ending}.\n  Give a file name such as ${example}.`, 2);
  // A file that is called by nothing but its ending is hidden from its maker.
  if (basename(given).toLowerCase() === ending)
    throw new Hindrance(`“${given}” has an ending and no name.\n  Give a file name such as ${example}.`, 2);
  const file = resolve(io.folder, given);
  const there = writing(given, () => lstatSync(file, { throwIfNoEntry: false }));
  if (there?.isDirectory() === true)
    throw new Hindrance(`${given} could not be written: there is a folder of that name.`);
  if (there?.isSymbolicLink() === true)
    throw new Hindrance(
      `${given} is a link; nothing was written.\n  Name the file that it leads to, or remove it.`,
    );
  if (there?.isFile() === false)
    throw new Hindrance(`${given} is a device or a pipe; nothing was written.\n  Choose another name.`);
  if (there !== undefined && !replace) {
    throw new Hindrance(
      `${given} is there already; nothing was written.\n  ${lost} Choose another name with ${option}, or add --replace.`,
    );
  }
  return file;
}
