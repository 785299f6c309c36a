// npm run coverage:fit: how often the 95 % interval of a fit holds the true pitch, and how often the next piece
// runs short; first of fits alone, then by whole books and their sheet Cuts. The seed is fixed, so that the figures are the same wherever it runs.
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { build } from 'esbuild';

const top = join(dirname(fileURLToPath(import.meta.url)), '..', '..');
const scratch = mkdtempSync(join(tmpdir(), 'sennit-fit-'));
const entries = ['samples/simulate', 'samples/simulateBooks', 'support/books'];
await build({
  absWorkingDir: top,
  entryPoints: entries.map((name) => `tests/${name}.ts`),
  outdir: scratch,
  outExtension: { '.js': '.mjs' },
  bundle: true,
  splitting: true,
  format: 'esm',
  platform: 'node',
  // The bundle lies elsewhere, the templates stay where they are.
  define: { 'import.meta.dirname': JSON.stringify(join(top, 'tests', 'support')) },
  banner: {
    js: "import { createRequire } from 'node:module'; const require = createRequire(import.meta.url);",
  },
  logLevel: 'warning',
});
const [{ simulate, usual }, { simulateBooks }, { shipped }] = await Promise.all(
  entries.map((name) => import(pathToFileURL(join(scratch, `${name}.mjs`)).href)),
);
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

const piecesEach = 100;
const makers = {
  'three to eight samples': {},
  'three samples, 1 in 10': { fewestSamples: 3, mostSamples: 3, chanceOfShort: 0.1 },
  'one sample, 4 % assumed and true': { fewestSamples: 1, mostSamples: 1, pitchSpreadRatio: 0.04 },
  'half of it each cord by itself': { ownShare: 0.5 },
};

console.log(`\n${runs} books a line, ${piecesEach} pieces each, by the sheet Cuts after fit --write.`);
for (const [name, how] of Object.entries(makers)) {
  const maker = { ...usual, ownShare: 0, ...how };
  const made = simulateBooks(shipped, maker, runs, piecesEach, 20261125);
  console.log(
    `${name.padEnd(33)} runs short ${((100 * made.short) / made.pieces).toFixed(2)} %, chosen ${100 * maker.chanceOfShort} %; cost charged / needed ${made.chargedShare.toFixed(3)}`,
  );
}
