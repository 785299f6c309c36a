import { createRequire, syncBuiltinESMExports } from 'node:module';

/** What goes wrong at one operation on files. */
export type Fault = 'ENOSPC' | 'EACCES' | 'EIO' | 'killed before' | 'killed halfway';

const refusals: readonly Fault[] = ['ENOSPC', 'EIO', 'EACCES'];

/** Faults for operation number `at`: killed before and in it, and one refusal of the system; all of them in a long run. */
export function faultsAt(at: number): readonly Fault[] {
  const refused =
    process.env.SENNIT_FUZZ_MINUTES === undefined ? refusals.slice(at % 3, (at % 3) + 1) : refusals;
  return ['killed before', 'killed halfway', ...refused];
}

/** Thrown in place of the end of the process: nothing that is done to files after it has any effect. */
export class Killed extends Error {}

type Work = (...args: never[]) => unknown;
const files = createRequire(import.meta.url)('node:fs') as Record<string, Work>;

/** Every way by which the program changes anything on a disk, synchronously as all of it is. */
const operations = [
  'chownSync',
  'closeSync',
  'fchmodSync',
  'fsyncSync',
  'linkSync',
  'mkdirSync',
  'mkdtempSync',
  'openSync',
  'renameSync',
  'rmdirSync',
  'rmSync',
  'unlinkSync',
  'writeFileSync',
  'writeSync',
] as const;

/** The same by promises and callbacks: whoever uses them is not watched, and told so. */
const unwatched = [
  'writeFile',
  'rename',
  'createWriteStream',
  'cpSync',
  'copyFileSync',
  'appendFileSync',
  'truncateSync',
  'symlinkSync',
];

/**
 * Does work while its operation number `at` on files goes wrong; counts them.
 *
 * @param at from 1; 0 for none
 */
export async function withFault<T>(
  at: number,
  fault: Fault,
  work: () => T | Promise<T>,
): Promise<{ readonly result?: T; readonly error?: unknown; readonly operations: readonly string[] }> {
  const before = new Map([...operations, ...unwatched].map((name) => [name, files[name] as Work]));
  const done: string[] = [];
  let dead = false;
  for (const name of operations) {
    const real = before.get(name) as Work;
    files[name] = (...args: never[]) => {
      if (dead) throw new Killed('after the end');
      // Reading changes nothing.
      const [path, how] = args as unknown as [unknown, unknown];
      if (name === 'openSync' && (how === 'r' || how === undefined)) return real(...args);
      done.push(`${name} ${typeof path === 'number' ? '' : String(path)}`);
      if (done.length !== at) return real(...args);
      if (fault === 'killed halfway' && name === 'writeFileSync') {
        const bytes = Buffer.from(how as string | Uint8Array);
        real(...([path, bytes.subarray(0, bytes.length >> 1)] as unknown as never[]));
      } else if (fault === 'killed halfway') real(...args);
      if (fault.startsWith('killed')) {
        dead = true;
        throw new Killed(name);
      }
      // What could not be closed is closed; what a full disk took is half of it.
      if (name === 'closeSync') real(...args);
      if (name === 'writeFileSync' && fault === 'ENOSPC') {
        const bytes = Buffer.from(how as string | Uint8Array);
        real(...([path, bytes.subarray(0, bytes.length >> 1)] as unknown as never[]));
      }
      throw Object.assign(new Error(`${fault}: injected, ${name}`), { code: fault });
    };
  }
  for (const name of unwatched)
    files[name] = () => {
      throw new Error(`tests do not watch ${name}; let cli/files do it`);
    };
  syncBuiltinESMExports();
  try {
    const result = await work();
    // The end may have come where a fault is of no matter.
    return dead ? { error: new Killed('unseen'), operations: done } : { result, operations: done };
  } catch (error) {
    return { error, operations: done };
  } finally {
    for (const [name, real] of before) files[name] = real;
    syncBuiltinESMExports();
  }
}
