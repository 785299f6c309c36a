import { execFileSync, spawnSync } from 'node:child_process';
import {
  cpSync,
  existsSync,
  lstatSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { demoBook } from '../support/books.ts';
import { faultsAt, Killed, withFault } from '../support/faultyFiles.ts';
import { runCli } from '../support/runCli.ts';
import { cell, changed, page, rowOf, workbookOf } from '../support/takein.ts';

const isLong = process.env.SENNIT_FUZZ_MINUTES !== undefined;
const sennit = fileURLToPath(new URL('../../dist/sennit.js', import.meta.url));
const killing = fileURLToPath(new URL('../support/killAt.mjs', import.meta.url));

/** Commands that write, with what stands there before. The last figure is how many of their operations a short run tries. */
const commands: readonly (readonly [name: string, args: readonly string[], few: number])[] = [
  ['report', ['report', 'mine', '--out', 'out.html', '--replace'], 1],
  ['cards', ['cards', 'mine', '--out', 'out.html', '--replace'], 2],
  ['pricelist', ['pricelist', 'mine', '--as', 'csv', '--replace'], 2],
  ['workbook', ['workbook', 'mine', '--out', 'out.xlsx', '--no-batch', '--replace'], 1],
  ['workbook as ods', ['workbook', 'mine', '--out', 'out.ods', '--no-batch', '--replace'], 1],
  ['fit', ['fit', 'mine', '--write', '--svg', 'out.svg', '--replace'], 3],
  ['cut', ['cut', 'mine', 'wrist medium=2', '--write'], 3],
  ['takein', ['takein', 'taken.xlsx', 'mine', '--yes'], 2],
  [
    'month --close',
    ['month', 'mine', '2026-10', '--close', '--journal', 'out.csv', '--out', 'out.xlsx', '--replace'],
    3,
  ],
  ['new', ['new', 'fresh'], 3],
  ['new in a folder that is there', ['new', 'empty'], 3],
];

const root = mkdtempSync(join(tmpdir(), 'sennit-'));
const start = join(root, 'start');

beforeAll(async () => {
  mkdirSync(start);
  mkdirSync(join(start, 'empty'));
  await runCli(['new', 'mine'], { folder: start });
  for (const name of ['out.html', 'out.xlsx', 'out.ods', 'out.svg', 'out.csv'])
    writeFileSync(join(start, name), 'old');
  const dearer = await changed(await workbookOf(demoBook('starter')), (file) => {
    const materials = page(file, 'Materials');
    cell(materials, rowOf(materials, 'slate cord'), 'Pack price, USD').value = 64;
    const rates = page(file, 'Rates');
    rates.getCell(`B${rowOf(rates, 'Wage')}`).value = 25;
  });
  writeFileSync(join(start, 'taken.xlsx'), dearer);
});
afterAll(() => rmSync(root, { recursive: true, force: true }));

function fresh(): string {
  const folder = join(root, 'run');
  rmSync(folder, { recursive: true, force: true });
  cpSync(start, folder, { recursive: true });
  return folder;
}

/** Files by name, apart from copies, locks and what waits. */
function contents(folder: string): Map<string, string> {
  const all = new Map<string, string>();
  const walk = (within: string): void => {
    for (const name of readdirSync(join(folder, within)).sort()) {
      const path = join(within, name);
      if (/^\.sennit|^backup-|\.sennit-\d+-|\.part-/.test(name)) continue;
      if (lstatSync(join(folder, path)).isDirectory()) walk(path);
      else all.set(path, readFileSync(join(folder, path)).toString('latin1'));
    }
  };
  walk('');
  return all;
}

/** Each file is what it was or what it becomes, and those of the book are all the one or all the other. */
function judge(folder: string, name: string, done: ReadonlyMap<string, string>): void {
  const before = contents(start);
  // The lock of a run that was killed says its number; this process stands for it, and lives.
  for (const book of ['mine', 'empty']) {
    const lock = join(folder, book, '.sennit-lock');
    if (existsSync(lock)) writeFileSync(lock, readFileSync(lock, 'utf8').replace(/^\d+\n/, '99999999\n'));
  }
  for (const [file, text] of contents(folder))
    expect([before.get(file), done.get(file)], `${name}: ${file}`).toContain(text);
  const found = contents(folder);
  for (const [file] of before)
    if (done.has(file)) expect(found.has(file), `${name}: ${file} is gone`).toBe(true);
}

describe.each(commands)('sennit %s', (_, args, few) => {
  test('leaves each file as it was or as it will be, and a book that can be read, whatever fails', async () => {
    const folder = fresh();
    const run = (): Promise<unknown> => runCli(args, { folder, now: () => new Date('2026-11-25T12:00:00Z') });
    const whole = await withFault(0, 'EIO', run);
    expect(whole.error).toBeUndefined();
    const done = contents(folder);
    expect(done).not.toEqual(contents(start));
    const count = whole.operations.length;
    const step = isLong ? 1 : Math.max(1, Math.floor(count / few));
    for (let at = 1; at <= count; at += step) {
      for (const fault of isLong ? faultsAt(at) : [faultsAt(at)[((at / step) % 3) | 0] ?? 'EIO']) {
        fresh();
        const { error, result } = await withFault(at, fault, run);
        const name = `${fault} at ${at}, ${whole.operations[at - 1]}`;
        if (fault.startsWith('killed')) expect(error, name).toBeInstanceOf(Killed);
        else {
          // The program tells it in words, with the exit code for what is in the way; it is no fault of its own.
          expect(error, name).toBeUndefined();
          expect([0, 1], name).toContain((result as { exitCode: number }).exitCode);
        }
        judge(folder, name, done);
        const book = args[0] === 'new' ? undefined : 'mine';
        if (book !== undefined) expect((await runCli(['check', book], { folder })).exitCode, name).toBe(0);
      }
    }
  });
});

/** A run of the built program that ends itself by a signal at one of its operations on files. */
function killedRun(folder: string, at: number, args: readonly string[]): string | null {
  const preload = `${killing}?at=${at}`;
  return spawnSync(process.execPath, ['--import', `file://${preload}`, sennit, ...args], { cwd: folder })
    .signal;
}

test('a process that is really killed while it takes a workbook in leaves a book that the next run finishes', async () => {
  const folder = fresh();
  const args = ['takein', 'taken.xlsx', 'mine', '--yes'];
  const { operations } = await withFault(0, 'EIO', () => runCli(args, { folder }));
  const done = readFileSync(join(folder, 'mine', 'materials.csv'), 'utf8');
  const seen = new Set<string>();
  // The step that decides renames the folder of new files; on both sides of it, and in the midst of the moves.
  const deciding = operations.findIndex(
    (each) => /^renameSync .*\.sennit-staged-/.test(each) && !each.includes('backup'),
  );
  expect(deciding).toBeGreaterThan(0);
  const count = operations.length;
  const points = isLong
    ? Array.from({ length: count }, (_, at) => at + 1)
    : [
        Math.floor(deciding / 2),
        ...operations.flatMap((each, at) => (each.startsWith('renameSync') ? [at + 1] : [])),
        count,
      ];
  for (const at of points) {
    fresh();
    const signal = killedRun(folder, at, args);
    const next = spawnSync(process.execPath, [sennit, 'check', 'mine'], { cwd: folder, encoding: 'utf8' });
    expect(next.status, `${at}: ${next.stderr}`).toBe(0);
    const materials = readFileSync(join(folder, 'mine', 'materials.csv'), 'utf8');
    const isNew = materials === done;
    if (!isNew) expect(materials).toBe(readFileSync(join(start, 'mine', 'materials.csv'), 'utf8'));
    const wage = /^wage_per_hour:.*$/m.exec(readFileSync(join(folder, 'mine', 'book.yaml'), 'utf8'))?.[0];
    expect(/\b25\b/.test(wage ?? ''), `${at}: materials.csv is ${isNew ? 'new' : 'old'}, and ${wage}`).toBe(
      isNew,
    );
    seen.add(`${signal} ${isNew}`);
  }
  expect([...seen]).toContain('SIGKILL false');
  expect([...seen].some((each) => each.endsWith('true'))).toBe(true);
});

test('a disk that takes only the beginning of a file leaves the old one (a real limit of the system)', () => {
  const folder = fresh();
  // Blocks of 512 or 1024 bytes; the page has far more. The limit's signal is ignored, so that the write fails.
  const run = spawnSync(
    'sh',
    [
      '-c',
      `trap '' XFSZ; ulimit -f 8; exec "${process.execPath}" "${sennit}" cards mine --out out.html --replace`,
    ],
    { cwd: folder, encoding: 'utf8' },
  );
  expect(run.stderr).toContain('out.html could not be written: files may not grow so large there.');
  expect(run.status).toBe(1);
  expect(readFileSync(join(folder, 'out.html'), 'utf8')).toBe('old');
  expect(readdirSync(folder).filter((name) => name.includes('.sennit-'))).toEqual([]);
});

test('two runs at once: each file is that of one of them, and stock is taken twice or one run says so', async () => {
  const folder = fresh();
  const { spawn } = await import('node:child_process');
  const run = (args: readonly string[]): Promise<number | null> =>
    new Promise((resolve) =>
      spawn(process.execPath, [sennit, ...args], { cwd: folder }).on('close', resolve),
    );
  const codes = await Promise.all([1, 2].map(() => run(['cut', 'mine', 'wrist medium=2', '--write'])));
  const { exitCode } = await runCli(['check', 'mine'], { folder });
  expect(exitCode).toBe(0);
  const after = readFileSync(join(folder, 'mine', 'stock.csv'), 'utf8');
  // One after the other would leave this.
  fresh();
  for (const code of codes) if (code === 0) await run(['cut', 'mine', 'wrist medium=2', '--write']);
  expect(codes).toContain(0);
  expect(after).toBe(readFileSync(join(folder, 'mine', 'stock.csv'), 'utf8'));
});

describe('a file is not written where something else than a file stands', () => {
  test.each([
    ['a link', (path: string) => symlinkSync('mine/book.yaml', path), 'is a link; nothing was written'],
    [
      'a link to nowhere',
      (path: string) => symlinkSync('nowhere.html', path),
      'is a link; nothing was written',
    ],
    ['a folder', (path: string) => mkdirSync(path), 'there is a folder of that name'],
    [
      'a pipe',
      (path: string) => execFileSync('mkfifo', [path]),
      'is a device or a pipe; nothing was written',
    ],
  ])('%s', async (_, make, message) => {
    const folder = fresh();
    make(join(folder, 'page.html'));
    const before = contents(join(folder, 'mine'));
    for (const command of ['report', 'cards']) {
      const { exitCode, err } = await runCli([command, 'mine', '--out', 'page.html', '--replace'], {
        folder,
      });
      expect(err).toContain(message);
      expect(exitCode).toBe(1);
    }
    expect(contents(join(folder, 'mine'))).toEqual(before);
    expect(existsSync(join(folder, 'nowhere.html'))).toBe(false);
  });

  test('a workbook that is a pipe is not waited for', async () => {
    const folder = fresh();
    execFileSync('mkfifo', [join(folder, 'pipe.xlsx')]);
    const { exitCode, err } = await runCli(['takein', 'pipe.xlsx', 'mine', '--dry-run'], { folder });
    expect([exitCode, err]).toEqual([
      1,
      'pipe.xlsx could not be read: it is a device or a pipe, not a file.\n',
    ]);
    expect(statSync(join(folder, 'pipe.xlsx')).isFIFO()).toBe(true);
  });
});
