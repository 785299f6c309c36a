// Processes of their own, timed in turn: a slow moment of the machine hits both sides of a ratio alike.
import { execFileSync, spawnSync } from 'node:child_process';
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';

/** Tells the peak of memory, in KB, on a stream of its own when the process ends. */
const peakHook =
  'data:text/javascript,import{writeSync}from"node:fs";process.on("exit",()=>writeSync(3,String(process.resourceUsage().maxRSS)))';

export const median = (numbers) =>
  [...numbers].sort((one, other) => one - other)[Math.floor(numbers.length / 2)];

/** One run of a Node program, from start to end: { ms, peakMb }. Exit code 1 is allowed, as `cut` has a use for it. */
export function nodeRun(args, folder) {
  const began = performance.now();
  const { status, stderr, output } = spawnSync(process.execPath, ['--import', peakHook, ...args], {
    cwd: folder,
    stdio: ['ignore', 'ignore', 'pipe', 'pipe'],
    encoding: 'utf8',
  });
  const ms = performance.now() - began;
  if (status !== 0 && status !== 1) throw new Error(`${args.join(' ')}\n${stderr}`);
  return { ms, peakMb: Number(output[3]) / 1024 };
}

/** One task of tasks.ts, which times itself without the start of its process: { ms, peakMb, cells }. */
export function taskRun(bundle, args) {
  const all = ['--max-old-space-size=19000', bundle, ...args.map(String)];
  return JSON.parse(execFileSync(process.execPath, all, { encoding: 'utf8', maxBuffer: 1e8 }));
}

/** LibreOffice opening a workbook, recalculating it and saving it in another format; undefined where it is missing. */
export function officeRun(file, format, scratch) {
  const profile = join(scratch, `profile-${Math.floor(performance.now())}`);
  mkdirSync(join(profile, 'user'), { recursive: true });
  const always = ['OOXMLRecalcMode', 'ODFRecalcMode'].map(
    (kind) =>
      `<item oor:path="/org.openoffice.Office.Calc/Formula/Load"><prop oor:name="${kind}" oor:op="fuse"><value>0</value></prop></item>`,
  );
  writeFileSync(
    join(profile, 'user', 'registrymodifications.xcu'),
    `<?xml version="1.0" encoding="UTF-8"?><oor:items xmlns:oor="http://openoffice.org/2001/registry">${always.join('')}</oor:items>`,
  );
  const out = join(scratch, 'office');
  const args = [`-env:UserInstallation=file://${profile}`, '--headless', '--convert-to', format];
  const began = performance.now();
  const { error, status } = spawnSync('soffice', [...args, '--outdir', out, file], { stdio: 'ignore' });
  if (error !== undefined) return undefined;
  if (status !== 0) throw new Error(`LibreOffice could not convert ${file}`);
  return { ms: performance.now() - began };
}

/** Runs both sides in turn so many times: medians of time, highest peaks. The other side may be a fixed limit. */
export function inTurn(rounds, ours, theirs) {
  const [our, their] = [[], []];
  for (let round = 0; round < rounds; round += 1) {
    our.push(ours());
    const other = theirs?.();
    if (other !== undefined) their.push(other);
  }
  return { ours: summed(our), theirs: their.length === 0 ? undefined : summed(their) };
}

function summed(runs) {
  const peaks = runs.flatMap(({ peakMb }) => (peakMb === undefined ? [] : [peakMb]));
  return {
    ms: median(runs.map(({ ms }) => ms)),
    ...(peaks.length === 0 ? {} : { peakMb: Math.max(...peaks) }),
  };
}
