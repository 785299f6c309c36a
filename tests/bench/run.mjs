// npm run bench: one table of ratios, each of two things measured in this one run, since machines are noisy.
import { mkdirSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { loadavg, tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { build } from 'esbuild';
import { nodeRun, taskRun } from './measure.mjs';
import { benchPage } from './page.mjs';
import { rows } from './rows.mjs';

const top = join(dirname(fileURLToPath(import.meta.url)), '..', '..');
const starter = join(top, 'templates', 'books', 'starter');
const templates = join(top, 'templates');

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: { to: { type: 'string', default: '1000' } },
});
const most = Number(values.to.replaceAll(',', ''));
const usual = Object.keys(rows).filter((name) => name !== 'model');
const asked = positionals.length > 0 ? positionals : usual;
const unknown = asked.filter((name) => !(name in rows) && name !== 'page');
if (unknown.length > 0 || !(most >= 100)) {
  console.error(
    `Give parts out of ${Object.keys(rows).join(', ')}, page, and the largest number of products, 100 to 100000: npm run bench -- price whatif --to 10000`,
  );
  process.exit(2);
}

const scratch = mkdtempSync(join(tmpdir(), 'sennit-bench-'));

async function bundleTasks() {
  const outfile = join(scratch, 'tasks.mjs');
  await build({
    absWorkingDir: top,
    entryPoints: ['tests/bench/tasks.ts'],
    outfile,
    bundle: true,
    format: 'esm',
    platform: 'node',
    logLevel: 'error',
    alias: { exceljs: './node_modules/exceljs/dist/exceljs.min.js' },
    banner: { js: "import{createRequire as __r}from'node:module';const require=__r(import.meta.url);" },
  });
  return outfile;
}

/** Files of the benchmark's book as a folder, for the program itself. */
function bookOf(products) {
  const folder = join(scratch, `book-${products}`);
  mkdirSync(folder, { recursive: true });
  context.task('book', products, folder);
  return folder;
}

function namesOf(products) {
  const [, ...lines] = readFileSync(join(bookOf(products), 'products.csv'), 'utf8').split('\n');
  return lines.map((line) => line.split(',')[0]);
}

const bundle = await bundleTasks();
const context = {
  ...{ scratch, starter, templates, bundle, bookOf, namesOf },
  cli: join(top, 'dist', 'sennit.js'),
  task: (name, products, file) => taskRun(bundle, [name, products, starter, templates, file]),
};
const number = (figure, digits) => (figure === undefined ? '' : figure.toFixed(digits));

function tell(name, products, row, found, growth) {
  const { ours, theirs } = found;
  const ratio = theirs === undefined ? undefined : ours.ms / theirs.ms;
  const memory =
    ours.peakMb === undefined
      ? ''
      : `${number(ours.peakMb, 0)} MB${theirs?.peakMb === undefined ? '' : `, ${number(ours.peakMb / theirs.peakMb, 2)} x`}`;
  const cells = [
    name,
    products?.toLocaleString('en') ?? 'demo book',
    ratio === undefined ? 'not measured' : number(ratio, ratio < 0.1 ? 3 : 2),
    String(row.limit),
    ratio === undefined ? '' : number(ratio / row.limit, 2),
    row.peer,
    memory,
    growth === undefined ? '' : `${number(growth, 1)} x`,
  ];
  console.log(`| ${cells.join(' | ')} |`);
}

console.log(`Load of the machine at the start: ${number(loadavg()[0], 1)}\n`);
console.log(
  '| task | products | ratio | limit | of the limit | against | peak memory | growth from a tenth |',
);
console.log('|---|---|---|---|---|---|---|---|');
try {
  // What is read for the first time comes from the disk.
  nodeRun([context.cli, 'price', starter]);
  for (const name of asked.filter((each) => each in rows)) {
    const row = rows[name];
    let before;
    for (const products of row.sizes ?? [undefined]) {
      if (products > most && name !== 'model') continue;
      const hasPeer = !(products > row.peerTo);
      const found = row.measure(context, products, hasPeer);
      tell(name, products, row, found, before === undefined ? undefined : found.ours.ms / before);
      before = found.ours.ms;
    }
  }
  if (asked.includes('page')) await benchPage({ top, book: starter, scratch, say: console.log });
} finally {
  rmSync(scratch, { recursive: true, force: true });
}
