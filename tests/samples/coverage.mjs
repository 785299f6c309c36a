// npm run coverage:fit: how often the 95 % interval of a fit holds the true pitch, and how often the next cord
// runs short. The seed is fixed, so that the figures are the same wherever it runs.
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { build } from 'esbuild';

const top = join(dirname(fileURLToPath(import.meta.url)), '..', '..');
const scratch = mkdtempSync(join(tmpdir(), 'sennit-fit-'));
const outfile = join(scratch, 'simulate.mjs');
await build({
  absWorkingDir: top,
  entryPoints: ['tests/samples/simulate.ts'],
  outfile,
  bundle: true,
  format: 'esm',
  platform: 'node',
  logLevel: 'warning',
});
const { simulate, usual } = await import(pathToFileURL(outfile).href);
rmSync(scratch, { recursive: true });

const runs = 1000;
const workshops = {
  'three to eight samples': usual,
  'the same, half knots counted': { ...usual, counted: true },
  'two samples': { ...usual, fewestSamples: 2, mostSamples: 2 },
  'four samples, 1 in 10 may run short': {
    ...usual,
    fewestSamples: 4,
    mostSamples: 4,
    chanceOfShort: 0.1,
  },
  'twenty samples': { ...usual, fewestSamples: 20, mostSamples: 20 },
  'an even hand, a coarse tape': { ...usual, pitchSpreadRatio: 0.005, readingErrorMm: 3 },
};

console.log(`${runs} simulated workshops a line; +- is the standard error of counting that many.`);
for (const [name, workshop] of Object.entries(workshops)) {
  const { covered, shortChance } = simulate(workshop, runs, 20261125);
  const share = covered / runs;
  const error = Math.sqrt((share * (1 - share)) / runs);
  console.log(
    `${name.padEnd(37)} interval holds ${(100 * share).toFixed(1)} % (+- ${(100 * error).toFixed(1)}); runs short ${(100 * shortChance).toFixed(2)} %, chosen ${(100 * workshop.chanceOfShort).toFixed(0)} %`,
  );
}
