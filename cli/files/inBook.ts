import { lstatSync, realpathSync } from 'node:fs';
import { dirname, isAbsolute, join, relative, sep } from 'node:path';
import { Hindrance } from '../io.ts';

/**
 * Where a file of a book really stands, in the words of the book's own folder. A link within the book is as good as
 * the file that it leads to; one that leads out of the book is refused, for reading and for writing: a book from
 * somebody else must not lead to anything that is not in it.
 */
export function inBook(folder: string, name: string): string {
  const root = realpathSync(folder);
  let standing = join(folder, name);
  let rest = '';
  // What does not exist yet stands where its folder does.
  while (lstatSync(standing, { throwIfNoEntry: false }) === undefined && standing !== folder) {
    rest = join(standing.slice(dirname(standing).length + 1), rest);
    standing = dirname(standing);
  }
  const real = join(realpathSync(standing), rest);
  const within = relative(root, real);
  if (within === '..' || within.startsWith(`..${sep}`) || isAbsolute(within))
    throw new Hindrance(
      `${name} is a link that leads out of the book, and is not followed.\n  Put the file itself in its place.`,
    );
  return within;
}
