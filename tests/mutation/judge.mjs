// A process of its own that holds one test runner open: it takes faults of one file, runs the named tests over each and
// says which faults no test saw.
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { createVitest } from 'vitest/node';

const [sandbox] = process.argv.slice(2);
const harness = join(sandbox, 'tests', 'mutation', 'harness.ts');
let batch;

/** Serves a source file with a fault in it; a file that is read as text gets its fault on disk, for as long. */
const faultsInPlace = {
  name: 'faults-in-place',
  resolveId: (id) => (id.startsWith('virtual:') ? `\0${id}` : undefined),
  load(id) {
    if (id === '\0virtual:batch') return `export const batch = ${JSON.stringify(batch.asked)};`;
    const onDisk = /^\0virtual:fault\/(\d+)$/.exec(id)?.[1];
    if (onDisk !== undefined) {
      writeFileSync(batch.asked.path, batch.texts[onDisk]);
      return 'export {};';
    }
    const [path, fault] = id.split('?fault=');
    return path === batch?.asked.path && fault !== undefined ? batch.texts[fault] : undefined;
  },
};

const runner = await createVitest(
  'test',
  {
    root: sandbox,
    config: join(sandbox, 'vitest.config.mjs'),
    include: ['tests/mutation/harness.ts'],
    watch: false,
    reporters: [{}],
    pool: 'threads',
    maxWorkers: 1,
    globalSetup: [],
    setupFiles: [join(sandbox, 'tests/mutation/steadyDraws.ts')],
    testTimeout: Math.max(30_000, 700 * Number(process.env.SENNIT_MUTATION_SECONDS ?? 0)),
  },
  { plugins: [faultsInPlace] },
);
await runner.standalone();

async function unseen({ file, texts, tests, progress }) {
  const path = join(sandbox, file);
  const whole = readFileSync(path, 'utf8');
  const faults = Object.keys(texts).map(Number);
  batch = { texts, asked: { path, faults, tests: tests.map((each) => join(sandbox, each)), progress } };
  // What was loaded for another batch is not to be answered from memory.
  for (const environment of Object.values(runner.vite.environments)) environment.moduleGraph.invalidateAll();
  try {
    const specifications = await runner.globTestSpecifications([harness]);
    const { testModules, unhandledErrors } = await runner.runTestSpecifications(specifications, false);
    const module = testModules.find((each) => each.moduleId === harness);
    const errors = [...(module?.errors() ?? []), ...unhandledErrors];
    const suites = [...(module?.children.suites() ?? [])];
    if (suites.length !== batch.asked.faults.length)
      throw new Error(
        `${suites.length} of ${batch.asked.faults.length} faults ran: ${errors.map((each) => each.stack ?? each.message).join('\n')}`,
      );
    for (const suite of suites) {
      if ([...suite.children.allTests()].length === 0) throw new Error(`No test in ${tests.join(', ')}`);
    }
    return suites.filter((each) => each.state() === 'passed').map((each) => Number(each.name));
  } finally {
    writeFileSync(path, whole);
  }
}

process.on('message', async (question) => {
  try {
    process.send({ unseen: await unseen(question) });
  } catch (fault) {
    process.send({ fault: String(fault?.stack ?? fault) });
  }
});
process.send({ ready: true });
