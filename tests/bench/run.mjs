// npm run bench: each line is a ratio of two things measured in this one run, since machines are noisy.
import { execFileSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';
import { benchPage } from './page.mjs';

const top = join(dirname(fileURLToPath(import.meta.url)), '..', '..');
const scratch = mkdtempSync(join(tmpdir(), 'sennit-bench-'));
const starter = join(top, 'templates', 'books', 'starter');
const templates = join(top, 'templates');
const lines = [];
const say = (text) => {
  lines.push(text);
  console.log(text);
};

const median = (numbers) => [...numbers].sort((one, other) => one - other)[Math.floor(numbers.length / 2)];

function time(command, args, quiet = false) {
  const start = performance.now();
  execFileSync(command, args, { stdio: ['ignore', 'ignore', quiet ? 'ignore' : 'inherit'], cwd: top });
  return performance.now() - start;
}

/** Cold starts, taken in turn so that a slow moment hits all alike. */
function coldStart() {
  const ways = {
    'bare Node': ['-e', ''],
    'importing hyperformula': ['-e', 'require("hyperformula")'],
    'price, demo book': ['dist/sennit.js', 'price', starter],
  };
  const times = Object.fromEntries(Object.keys(ways).map((name) => [name, []]));
  for (let round = 0; round < 11; round += 1) {
    for (const [name, args] of Object.entries(ways)) times[name].push(time(process.execPath, args));
  }
  const bare = median(times['bare Node']);
  say('Cold start, median of 11');
  for (const name of Object.keys(ways))
    say(
      `  ${name.padEnd(26)} ${median(times[name]).toFixed(0).padStart(6)} ms  ${(median(times[name]) / bare).toFixed(2).padStart(6)} x bare Node`,
    );
}

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

function task(outfile, name, products, file) {
  const args = ['--max-old-space-size=19000', outfile, name, String(products), starter, templates, file];
  return JSON.parse(execFileSync(process.execPath, args, { encoding: 'utf8', maxBuffer: 1e8 }));
}

function libreOffice(file) {
  const profile = join(scratch, `profile-${Math.floor(performance.now())}`);
  mkdirSync(join(profile, 'user'), { recursive: true });
  const item = (kind) =>
    `<item oor:path="/org.openoffice.Office.Calc/Formula/Load"><prop oor:name="${kind}" oor:op="fuse"><value>0</value></prop></item>`;
  writeFileSync(
    join(profile, 'user', 'registrymodifications.xcu'),
    `<?xml version="1.0" encoding="UTF-8"?><oor:items xmlns:oor="http://openoffice.org/2001/registry">${item('OOXMLRecalcMode')}${item('ODFRecalcMode')}</oor:items>`,
  );
  const args = [
    `-env:UserInstallation=file://${profile}`,
    '--headless',
    '--convert-to',
    'csv:Text - txt - csv (StarCalc):44,34,76,1,,0,false,true,false,false,false,-1',
    '--outdir',
    scratch,
    file,
  ];
  try {
    return time('soffice', args, true);
  } catch {
    return undefined;
  }
}

function large(outfile, products) {
  const cellsFile = join(scratch, 'cells.ndjson');
  const { cells } = task(outfile, 'cells', products, cellsFile);
  const rounds = products > 10_000 ? 1 : products === 10_000 ? 3 : 5;
  const ours = [];
  const bare = [];
  for (let round = 0; round < rounds; round += 1) {
    ours.push(task(outfile, 'sennit', products, ''));
    bare.push(task(outfile, 'bare', products, cellsFile));
  }
  say(
    `\n${products.toLocaleString('en')} products, ${cells.toLocaleString('en')} filled cells, median of ${rounds}`,
  );
  const oursMs = compare('book to values', ours, 'hyperformula, same cells', bare);
  // A workbook of more is beyond what exceljs can hold.
  if (products > 10_000) return;
  const file = join(scratch, 'bench.xlsx');
  const written = task(outfile, 'workbook', products, file);
  say(
    `  writing the workbook       ${written.ms.toFixed(0).padStart(6)} ms  peak ${written.peakMb.toFixed(0)} MB`,
  );
  const office = libreOffice(file);
  if (office === undefined) say('  LibreOffice is not here; its recalculation was not measured.');
  else
    say(
      `  LibreOffice, recalculating ${office.toFixed(0).padStart(6)} ms  book to values is ${(oursMs / office).toFixed(2)} x of it`,
    );
}

/** A sweep over the demo book: our program, the same by hand, and hyperformula given the same cells to change. */
function draws(outfile, count) {
  const found = task(outfile, 'draws', count, '');
  const { varied, results, cells, compileMs, programMs, handMs, engineMs, engineDraws } = found;
  const line = (name, ms, note) => say(`  ${name.padEnd(26)} ${ms.toFixed(0).padStart(8)} ms  ${note}`);
  say(`\n${count.toLocaleString('en')} draws of ${varied} figures, ${results} margins each, median of 5`);
  line('compiled program', programMs, `${cells} cells; compiled in ${compileMs.toFixed(0)} ms`);
  line('the same loops by hand', handMs, `program is ${(programMs / handMs).toFixed(2)} x of it`);
  line(
    'hyperformula',
    engineMs,
    `from ${engineDraws} draws; program is ${(engineMs / programMs).toFixed(0)} x as fast`,
  );
}

/** Fifty thousand products of thirty formula columns: as many cells as fit the memory of both. */
function model(outfile, products) {
  const cellsFile = join(scratch, 'model.ndjson');
  const { cells } = task(outfile, 'model-cells', products, cellsFile);
  const ours = [];
  const bare = [];
  for (let round = 0; round < 3; round += 1) {
    ours.push(task(outfile, 'model', products, ''));
    bare.push(task(outfile, 'bare', products, cellsFile));
  }
  const columns = 30;
  say(
    `\nModel: ${products.toLocaleString('en')} products x ${columns} formula columns, ${cells.toLocaleString('en')} filled cells, median of 3`,
  );
  compare('tables to values', ours, 'hyperformula, same cells', bare);
}

function compare(ourName, ours, theirName, theirs) {
  const [oursMs, theirsMs] = [ours, theirs].map((all) => median(all.map((each) => each.ms)));
  const [oursMb, theirsMb] = [ours, theirs].map((all) => Math.max(...all.map((each) => each.peakMb)));
  say(`  ${ourName.padEnd(26)} ${oursMs.toFixed(0).padStart(6)} ms  peak ${oursMb.toFixed(0)} MB`);
  say(`  ${theirName.padEnd(26)} ${theirsMs.toFixed(0).padStart(6)} ms  peak ${theirsMb.toFixed(0)} MB`);
  say(
    `  ratio                      ${(oursMs / theirsMs).toFixed(3).padStart(6)} x  memory ${(oursMb / theirsMb).toFixed(3)} x`,
  );
  return oursMs;
}

/** Book to values as a book grows: the time for each product should not. */
function growth(outfile, sizes) {
  say('\nGrowth, book to values, median of 3');
  for (const products of sizes) {
    const all = Array.from({ length: 3 }, () => task(outfile, 'sennit', products, ''));
    const ms = median(all.map((each) => each.ms));
    const mb = Math.max(...all.map((each) => each.peakMb));
    say(
      `  ${products.toLocaleString('en').padStart(8)} products  ${ms.toFixed(0).padStart(7)} ms  ${((ms * 1000) / products).toFixed(0).padStart(5)} us each  peak ${mb.toFixed(0)} MB`,
    );
  }
}

/** Parts by name, so that one can be measured alone: `npm run bench draws`, `npm run bench 1000`. */
const parts = {
  start: () => coldStart(),
  draws: (outfile) => draws(outfile, 10_000),
  growth: (outfile) => growth(outfile, [1_000, 10_000, 100_000]),
  model: (outfile) => model(outfile, 50_000),
  page: () => benchPage({ top, book: starter, scratch, say }),
};

const asked = process.argv.slice(2);
const outfile = await bundleTasks();
for (const each of asked.length > 0
  ? asked
  : ['start', 'page', 'draws', 'growth', 'model', '1000', '10000']) {
  if (each in parts) await parts[each](outfile);
  else large(outfile, Number(each));
}
rmSync(scratch, { recursive: true, force: true });
