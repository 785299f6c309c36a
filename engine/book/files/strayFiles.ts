import type { BookFiles } from '../book.ts';
import { nearest } from '../problems/nearest.ts';
import { type Problem, problem } from '../problems/problem.ts';
import type { TableSchema } from '../schema.ts';

/**
 * Files of the folder that nothing reads, and folders (their names end in a stroke) that are called like tables. A table under a mistyped name would leave its figures out of every
 * price without a word.
 */
export function strayFiles(files: BookFiles, tables: readonly TableSchema[]): Problem[] {
  const known = ['book.yaml', ...tables.map(({ table }) => `${table}.csv`)];
  const absent = known.filter((name) => !files.has(name));
  return [...files.keys()]
    .filter((name) => !known.includes(name) && !name.startsWith('sheets/'))
    .map((name) => {
      const plain = name.replace(/\/$/, '');
      const meant = absent.find((each) => each === plain.toLowerCase()) ?? nearest(plain, absent);
      const isFolder = plain !== name;
      return problem(
        'file-unknown',
        { file: name },
        isFolder
          ? 'This is a folder, and nothing in it is read.'
          : 'Nothing reads this file, so its figures count for nothing.',
        {
          severity: 'watch',
          found: name,
          accepted: known.join(', '),
          mend:
            meant === undefined
              ? 'Nothing, if it is for you.'
              : isFolder
                ? `If it stands for the table, put a file ${meant} in its place.`
                : `Did you mean ${meant}?`,
        },
      );
    });
}
