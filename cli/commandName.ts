import type { Io } from './io.ts';

/** How this program is called here, for what to do next: by npm in a clone, by its own name when installed. */
export function commandName(io: Io): string {
  return io.env.npm_lifecycle_event === undefined ? 'sennit' : 'npm run -s sennit --';
}
