import type { Io } from './io.ts';

/** How this program is called here, for what to do next: by npm in a clone; by its own name when installed, also where npx
 * or another program's script of npm calls it. */
export function commandName(io: Io): string {
  return ['sennit', 'demo'].includes(io.env.npm_lifecycle_event ?? '') ? 'npm run -s sennit --' : 'sennit';
}
