// npm run mutation: puts small faults into the geometry, the money and the formulas of prices, one at a time, and says
// which of them no test sees. `npm run mutation cord` takes one group, `npm run mutation engine/cord/bar.ts` one file,
// `npm run mutation prices.margin` one column; --fresh judges again what was judged before. Works in a copy under out/, and keeps its findings there.
import { fork } from 'node:child_process';
import { createHash } from 'node:crypto';
import {
  cpSync,
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parse } from 'yaml';
import { isFormulaSound } from './formulasSound.mjs';
import { columnsBySheet, mutateSheet } from './mutateSheet.mjs';
import { mutateSource } from './mutateSource.mjs';
import { targets } from './targets.mjs';

const here = dirname(fileURLToPath(import.meta.url));
const top = join(here, '..', '..');
const sandbox = join(top, 'out', 'mutation', `sandbox${process.pid}`);
const memoryOf = (file) => join(top, 'out', 'mutation', `${file.replaceAll('/', '-')}.json`);
const progress = `${sandbox}.progress`;
/** A fault that makes a test go on for ever is seen as well: by the clock. On a busy machine the clock has to be a slower one. */
const patience = 1000 * Number(process.env.SENNIT_MUTATION_SECONDS ?? 45);
/** The number under which a file goes along as it is. */
const untouched = 1000;

const words = process.argv.slice(2).filter((each) => !each.startsWith('--'));
const read = (file) => readFileSync(join(top, file), 'utf8');
const hash = (text) => createHash('sha256').update(text).digest('hex').slice(0, 16);

function copyTree() {
  rmSync(sandbox, { recursive: true, force: true });
  mkdirSync(sandbox, { recursive: true });
  for (const each of [
    'engine',
    'cli',
    'library',
    'build',
    'templates',
    'tests',
    'docs',
    'package.json',
    'tsconfig.json',
    'vitest.config.mjs',
  ]) {
    cpSync(join(top, each), join(sandbox, each), { recursive: true });
  }
}

/** One process that judges; a new one after it was stopped for taking too long. */
class Judge {
  async start() {
    this.child = fork(join(here, 'judge.mjs'), [sandbox], {
      stdio: ['ignore', process.env.LOUD ? 'inherit' : 'ignore', 'inherit', 'ipc'],
    });
    await this.answer();
  }
  answer(isSlow) {
    return new Promise((resolve, reject) => {
      const clock = isSlow && setInterval(() => isSlow() && done({ isSlow: true }), 5000);
      const exit = (code) => done({ fault: `The judge ended with ${code}.` });
      const done = (message) => {
        clearInterval(clock);
        this.child.off('message', done);
        this.child.off('exit', exit);
        if (message.fault === undefined) resolve(message);
        else reject(new Error(message.fault));
      };
      this.child.once('message', done);
      this.child.once('exit', exit);
    });
  }
  /** Which of these faults the tests let pass, by their numbers. */
  async unseen(file, texts, tests) {
    if (this.child === undefined) await this.start();
    const whole = readFileSync(join(sandbox, file), 'utf8');
    writeFileSync(progress, '');
    // The file as it is goes along as the last: what judges it to be faulty judges nothing rightly.
    this.child.send({ file, texts: { ...texts, [untouched]: whole }, tests, progress });
    const { unseen, isSlow } = await this.answer(() => Date.now() - statSync(progress).mtimeMs > patience);
    if (!isSlow) {
      if (!unseen.includes(untouched))
        throw new Error(`${tests.join(', ')}: fails although nothing was changed in ${file}.`);
      return unseen.filter((each) => each !== untouched);
    }
    this.stop();
    writeFileSync(join(sandbox, file), whole);
    const { [Number(readFileSync(progress, 'utf8'))]: _, ...others } = texts;
    return this.unseen(file, others, tests);
  }
  stop() {
    this.child?.kill('SIGKILL');
    this.child = undefined;
  }
}

function mutantsOf({ file, only }) {
  if (!file.endsWith('.yaml')) return mutateSource(file, read(file));
  const folder = join(top, 'templates', 'sheets');
  const files = new Map(
    readdirSync(folder).map((name) => [`templates/sheets/${name}`, readFileSync(join(folder, name), 'utf8')]),
  );
  return mutateSheet(file, read(file), columnsBySheet(files), only);
}

/** The column of a sheet that a fault is in: `prices.margin`. */
const columnOf = ({ where }) => where.split(' ').at(-1);

const equivalent = parse(readFileSync(join(here, 'equivalent.yaml'), 'utf8'));

/** Whether somebody looked at this fault and found that nothing comes of it: by file or column, line, and the fault if not all. */
function isEquivalent({ where, line = '', says }) {
  return equivalent.some(
    (each) =>
      where.includes(each.in) &&
      line.includes(each.line ?? '') &&
      (each.fault === undefined || [each.fault].flat().includes(says)),
  );
}
const isFresh = process.argv.includes('--fresh');
const recalled = (file) =>
  existsSync(memoryOf(file)) && !isFresh ? JSON.parse(readFileSync(memoryOf(file), 'utf8')) : {};
let judged = {};
const judge = new Judge();
copyTree();
const testHash = (file) => hash(readFileSync(join(sandbox, file), 'utf8'));

const atOnce = 20;

/** What is known of a fault holds while the tests that saw it, or all that did not, are as they were. */
function known(mutant) {
  const before = judged[hash(mutant.text)];
  const holds =
    before &&
    Object.entries(before.tests).every(
      ([test, as]) => existsSync(join(sandbox, test)) && as === testHash(test),
    );
  return holds ? before.verdict : undefined;
}

function keep(file, mutant, verdict, tests) {
  judged[hash(mutant.text)] = {
    verdict,
    tests: Object.fromEntries(tests.map((each) => [each, testHash(each)])),
  };
  writeFileSync(memoryOf(file), JSON.stringify(judged));
  mutant.verdict = verdict;
}

/** Puts every fault to the first tests, those that pass to the next ones. */
async function judgeAll({ file, stages }, mutants) {
  judged = recalled(file);
  const open = [];
  for (const mutant of mutants) {
    mutant.verdict = known(mutant);
    if (mutant.verdict !== undefined) continue;
    if (file.endsWith('.yaml') && !(await isFormulaSound(top, file, mutant.text)))
      keep(file, mutant, 'no formula', []);
    else open.push(mutant);
  }
  for (let from = 0; from < open.length; from += atOnce) {
    let batch = open.slice(from, from + atOnce);
    for (const tests of stages) {
      if (batch.length === 0) break;
      const unseen = new Set(
        await judge.unseen(file, Object.fromEntries(batch.map((each, at) => [at + 1, each.text])), tests),
      );
      for (const [at, mutant] of batch.entries()) if (!unseen.has(at + 1)) keep(file, mutant, 'seen', tests);
      batch = batch.filter((_, at) => unseen.has(at + 1));
    }
    for (const mutant of batch) keep(file, mutant, 'unseen', stages.flat());
  }
}

const rows = [];
for (const [group, list] of Object.entries(targets)) {
  const isWhole = (file) => words.length === 0 || words.includes(group) || words.includes(file);
  const chosen = list
    .filter(
      (target) =>
        isWhole(target.file) ||
        (target.file.endsWith('.yaml') && mutantsOf(target).some((each) => words.includes(columnOf(each)))),
    )
    .map((each) => ({
      ...each,
      stages: each.stages.map((stage) => stage.filter((test) => existsSync(join(top, test)))),
    }));
  const all = [];
  for (const target of chosen) {
    const mutants = mutantsOf(target).filter(
      (each) => isWhole(target.file) || words.includes(columnOf(each)),
    );
    await judgeAll(target, mutants);
    const sound = mutants.filter(({ verdict }) => verdict !== 'no formula');
    for (const each of sound) if (each.verdict === 'unseen' && isEquivalent(each)) each.verdict = 'alike';
    const seen = sound.filter(({ verdict }) => verdict === 'seen');
    console.log(`${target.file}: ${seen.length} of ${sound.length} seen`);
    for (const { where, says, verdict } of sound)
      if (verdict === 'unseen') console.log(`  ${where}  ${says}`);
    all.push(...sound);
  }
  if (chosen.length > 0) rows.push({ group, all });
}
judge.stop();
rmSync(sandbox, { recursive: true, force: true });

console.log(
  '\n| what | faults | seen by a test | change nothing | unseen | score |\n|---|---|---|---|---|---|',
);
for (const { group, all } of rows) {
  const count = (verdict) => all.filter((each) => each.verdict === verdict).length;
  const score = (of) => `${((100 * count('seen')) / of).toFixed(1)} %`;
  console.log(
    `| ${group} | ${all.length} | ${count('seen')} | ${count('alike')} | ${count('unseen')} | ${score(all.length)} | ${score(all.length - count('alike'))} |`,
  );
}
