import { writeFileSync } from 'node:fs';
import { beforeAll, beforeEach, describe, it, vi } from 'vitest';

interface Batch {
  readonly path: string;
  readonly faults: readonly number[];
  readonly tests: readonly string[];
  /** Where to write which fault is at work, for whoever waits with a clock. */
  readonly progress: string;
}

/*
 * Every fault of a batch with every test file, in one process: a fault is put in place, all modules are forgotten, and the
 * test file is read anew inside a suite of the fault's own. After its first failing test the rest of a fault is passed over.
 */
const batchModule = 'virtual:batch';
const { batch } = (await import(/* @vite-ignore */ batchModule)) as { batch: Batch };

for (const fault of batch.faults) {
  let isSeen = false;
  describe(`${fault}`, async () => {
    beforeAll(() => writeFileSync(batch.progress, `${fault}`));
    beforeEach((context) => {
      if (isSeen) context.skip();
      context.onTestFailed(() => {
        isSeen = true;
      });
    });
    writeFileSync(batch.progress, `${fault}`);
    vi.resetModules();
    if (batch.path.endsWith('.ts')) {
      vi.doMock(batch.path, () => import(/* @vite-ignore */ `${batch.path}?fault=${fault}`));
    } else {
      await import(/* @vite-ignore */ `virtual:fault/${fault}`);
    }
    for (const test of batch.tests) {
      try {
        await import(/* @vite-ignore */ test);
      } catch (error) {
        it('can be loaded', () => {
          throw error;
        });
      }
    }
  });
}
