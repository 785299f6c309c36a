import { expect } from 'vitest';

/** Tests write what the program says now, instead of holding it against what it said: `npm run golden:refresh`. */
export const refreshing: boolean = process.env.SENNIT_REFRESH_GOLDEN === '1';

/**
 * Holds what is written against what the program says now.
 *
 * @param what the file, and where in it
 */
export function expectGolden(written: unknown, now: unknown, what: string): void {
  expect(written, stale(what)).toEqual(now);
}

/** What to do where a text is behind the program. */
function stale(what: string): string {
  return `${what} does not say what the program says now. If that is meant, run \`npm run golden:refresh\` and read the diff`;
}
