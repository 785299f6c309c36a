import type { BookFiles } from './book.ts';
import { nearest } from './nearest.ts';
import { type Problem, problem } from './problem.ts';
import type { TableSchema } from './schema.ts';

/**
 * Files of the folder that nothing reads. A table under a mistyped name would leave its figures out of every
 * price without a word.
 */
export function strayFiles(files: BookFiles, tables: readonly TableSchema[]): Problem[] {
  const known = ['book.yaml', ...tables.map(({ table }) => `${table}.csv`)];
  const absent = known.filter((name) => !files.has(name));
  return [...files.keys()]
    .filter((name) => !known.includes(name) && !name.startsWith('sheets/'))
    .map((name) => {
      const meant = absent.find((each) => each === name.toLowerCase()) ?? nearest(name, absent);
      return problem(
        'file-unknown',
        { file: name },
        'Nothing reads this file, so its figures count for nothing.',
        {
          severity: 'watch',
          found: name,
          accepted: known.join(', '),
          mend: meant === undefined ? 'Nothing, if it is for you.' : `Did you mean ${meant}?`,
        },
      );
    });
}
