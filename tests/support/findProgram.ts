import { accessSync, constants } from 'node:fs';
import { delimiter, join } from 'node:path';

/** Full path of the first of these programs that is on PATH, or undefined where none is installed. */
export function findProgram(...names: readonly string[]): string | undefined {
  for (const folder of (process.env.PATH ?? '').split(delimiter)) {
    for (const name of names) {
      const candidate = join(folder, name);
      try {
        accessSync(candidate, constants.X_OK);
        return candidate;
      } catch {
        // Not here; the next folder may have it.
      }
    }
  }
  return undefined;
}
