import { mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { Worker } from 'node:worker_threads';
import fc from 'fast-check';
import { afterAll, beforeAll, expect, test } from 'vitest';

/** Minutes for each property (`npm run fuzz`); without them a run is short. */
const minutes = Number(process.env.SENNIT_FUZZ_MINUTES ?? 0);
/** The seed of a run that is to be repeated. */
const seed = process.env.SENNIT_FUZZ_SEED === undefined ? undefined : Number(process.env.SENNIT_FUZZ_SEED);

/** No case takes nearly as long; one that does hangs, or grows with more than its own length. */
const longestSeconds = 60;
const folder = fileURLToPath(new URL('kept/', import.meta.url));

/**
 * Tries a property on generated inputs: some in the ordinary run, by a seed that stays; as many as the time allows in a
 * long one, by a new seed each time. Every input that ever failed is kept in `kept/` and tried first.
 *
 * @param name of the property, which is also the name of its file of kept inputs
 * @param runs in a short run
 */
export function fuzz<T>(
  name: string,
  input: fc.Arbitrary<T>,
  runs: number,
  property: (input: T) => void,
): void {
  const kept = readdirSync(folder)
    .filter((file) => file.startsWith(`${name}.`))
    .sort();
  test.each(kept)('%s stays mended', (file) => {
    watched(() => property(JSON.parse(readFileSync(`${folder}${file}`, 'utf8')) as T));
  });
  const long = minutes > 0;
  test(`${name}: no generated input breaks it`, { timeout: Math.max(120_000, minutes * 90_000) }, () => {
    const result = fc.check(
      fc.property(input, (each) => watched(() => clean(() => property(each)), each)),
      {
        seed: seed ?? (long ? Date.now() : 20_261_125),
        numRuns: long ? 1_000_000_000 : runs,
        ...(long ? { interruptAfterTimeLimit: minutes * 60_000, markInterruptAsFailure: false } : {}),
      },
    );
    if (!result.failed) return;
    const found = result.counterexample?.[0];
    const file = `${name}.${Date.now()}.json`;
    mkdirSync(folder, { recursive: true });
    writeFileSync(`${folder}${file}`, `${JSON.stringify(found)}\n`);
    throw new Error(
      `Seed ${result.seed}, after ${result.numRuns} runs; the input is kept in tests/fuzz/kept/${file}.\n${fc.defaultReportMessage(result)}`,
    );
  });
}

/** Nothing that is read may change what every object of the language has. */
function clean(work: () => void): void {
  work();
  expect(Object.keys(Object.prototype)).toEqual([]);
  expect(Reflect.ownKeys(Object.prototype).length).toBe(ownKeys);
  expect(Reflect.ownKeys(Array.prototype).length).toBe(ofArrays);
}
const ownKeys = Reflect.ownKeys(Object.prototype).length;
const ofArrays = Reflect.ownKeys(Array.prototype).length;

/** Counts the cases; another thread ends the process where the count stands still within one. */
const beat = new Int32Array(new SharedArrayBuffer(8));
let watchman: Worker | undefined;

const watching = `
const { workerData } = require('node:worker_threads');
const beat = workerData.beat;
let last = -1, since = Date.now();
setInterval(() => {
  const [now, busy] = [Atomics.load(beat, 0), Atomics.load(beat, 1)];
  if (now !== last || busy === 0) { last = now; since = Date.now(); return; }
  if (Date.now() - since < workerData.longestMs) return;
  require('node:fs').writeSync(2, 'A case did not end; its input is in ' + workerData.file + '\\n');
  process.kill(process.pid, 'SIGKILL');
}, 500);`;

beforeAll(() => {
  watchman = new Worker(watching, {
    eval: true,
    workerData: { beat, longestMs: longestSeconds * 1000, file: 'tests/fuzz/kept/hanging.json' },
  });
});
afterAll(async () => {
  await watchman?.terminate();
  rmSync(`${folder}hanging.json`, { force: true });
});

/** In a long run the input stands in a file before it is tried, so that one that never ends is found. */
function watched(work: () => void, input?: unknown): void {
  if (minutes > 0 && input !== undefined)
    writeFileSync(`${folder}hanging.json`, `${JSON.stringify(input)}\n`);
  Atomics.add(beat, 0, 1);
  Atomics.store(beat, 1, 1);
  try {
    work();
  } finally {
    Atomics.store(beat, 1, 0);
  }
}
