import { spawn } from 'node:child_process';
import { access, mkdir, mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { resolve as absolute, basename, dirname, extname, join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { findProgram } from './findProgram.ts';
import { type RecalculatedSheets, readSavedValues } from './savedValues.ts';
import { saveMacro } from './saveMacro.ts';

/**
 * LibreOffice as an independent judge: it opens a workbook, calculates every cell again from scratch and
 * saves what it found. By default it keeps the values that a file brings along; the profile below forbids it.
 */

const CONVERSION_TIMEOUT_MS = 100_000;

/** 0 = always recalculate on load; the locale is pinned, as it decides how text turns into numbers. */
type ProfileSetting = readonly [path: string, name: string, value: string];
const PROFILE_SETTINGS: readonly ProfileSetting[] = [
  ['/org.openoffice.Office.Calc/Formula/Load', 'OOXMLRecalcMode', '0'],
  ['/org.openoffice.Office.Calc/Formula/Load', 'ODFRecalcMode', '0'],
  ['/org.openoffice.Setup/L10N', 'ooSetupSystemLocale', 'en-US'],
  ['/org.openoffice.Setup/L10N', 'ooLocale', 'en-US'],
];

function profileXml(more: readonly ProfileSetting[]): string {
  const items = [...PROFILE_SETTINGS, ...more].map(
    ([path, name, value]) =>
      `<item oor:path="${path}"><prop oor:name="${name}" oor:op="fuse"><value>${value}</value></prop></item>`,
  );
  return `<?xml version="1.0" encoding="UTF-8"?>
<oor:items xmlns:oor="http://openoffice.org/2001/registry">${items.join('')}</oor:items>`;
}

/** Full path of the program, or undefined where it is not installed. */
export function findLibreOffice(): string | undefined {
  return findProgram('soffice', 'libreoffice');
}

/** Runs to the end, or throws with what the program said. The whole process group goes at the time limit. */
function run(program: string, args: readonly string[]): Promise<string> {
  return new Promise((resolve, reject) => {
    // Its own group: the launcher starts further processes, which would outlive it.
    const child = spawn(program, args, { detached: true, stdio: ['ignore', 'pipe', 'pipe'] });
    let said = '';
    for (const stream of [child.stdout, child.stderr]) stream.on('data', (text) => (said += String(text)));
    const timer = setTimeout(() => {
      if (child.pid !== undefined) process.kill(-child.pid, 'SIGKILL');
      reject(new Error(`LibreOffice took longer than ${CONVERSION_TIMEOUT_MS} ms: ${said}`));
    }, CONVERSION_TIMEOUT_MS);
    child.once('error', (error) => {
      clearTimeout(timer);
      reject(error);
    });
    child.once('close', (code) => {
      clearTimeout(timer);
      if (code === 0) resolve(said);
      else reject(new Error(`LibreOffice ended with ${String(code)}: ${said}`));
    });
  });
}

/** Gives `use` a folder of its own and removes it afterwards, whatever happens. */
async function withTemporaryFolder<T>(use: (folder: string) => Promise<T>): Promise<T> {
  const folder = await mkdtemp(join(tmpdir(), 'sennit-judge-'));
  try {
    return await use(folder);
  } finally {
    await rm(folder, { recursive: true, force: true, maxRetries: 3 });
  }
}

export type TargetFormat = 'pdf' | 'xlsx' | 'ods';

/**
 * Converts a spreadsheet file after a full recalculation and returns the path of the new file in `outDir`.
 * Each call has a profile of its own, so several may run at once. Throws where LibreOffice is missing,
 * fails, exceeds the time limit, or writes nothing.
 */
export async function convertTo(file: string, format: TargetFormat, outDir: string): Promise<string> {
  const program = findLibreOffice();
  if (program === undefined) throw new Error('LibreOffice is not installed (no soffice on PATH)');
  const target = join(outDir, `${basename(file, extname(file))}.${format}`);
  if (absolute(target) === absolute(file)) throw new Error(`would overwrite its own source: ${file}`);
  // An older result must not pass for a new one.
  await rm(target, { force: true });
  return withProfile(async (environment) => {
    const said = await run(program, [
      environment,
      '--headless',
      '--norestore',
      '--convert-to',
      format,
      '--outdir',
      outDir,
      file,
    ]);
    // It ends with 0 even where it could not read the file; only the new file is proof.
    await access(target).catch((cause: unknown) => {
      throw new Error(`LibreOffice converted nothing: ${said}`, { cause });
    });
    return target;
  });
}

/** Gives `use` the argument that names a fresh profile with our settings. */
function withProfile<T>(
  use: (environment: string) => Promise<T>,
  files: ReadonlyMap<string, string> = new Map([['registrymodifications.xcu', profileXml([])]]),
): Promise<T> {
  return withTemporaryFolder(async (profile) => {
    for (const [name, text] of files) {
      const file = join(profile, 'user', name);
      await mkdir(dirname(file), { recursive: true });
      await writeFile(file, text);
    }
    return use(`-env:UserInstallation=${pathToFileURL(profile).href}`);
  });
}

/**
 * Opens a file in a window, which a conversion does not, and returns the bytes of the .xlsx that is saved from
 * there: with frozen panes, grid lines and whatever else belongs to a window.
 */
export async function savedFromWindow(file: string): Promise<Uint8Array> {
  const program = findLibreOffice();
  if (program === undefined) throw new Error('LibreOffice is not installed (no soffice on PATH)');
  // A fresh profile is given macros of its own, unless it says that it has been set up.
  const settings = profileXml([['/org.openoffice.Setup/Office', 'ooSetupInstCompleted', 'true']]);
  return withTemporaryFolder((folder) =>
    withProfile(
      async (environment) => {
        const target = join(folder, 'saved.xlsx');
        const call = `Save(${pathToFileURL(file).href},${pathToFileURL(target).href})`;
        const said = await run(program, [
          environment,
          '--headless',
          '--norestore',
          `macro:///Standard.Judge.${call}`,
        ]);
        return readFile(target).catch((cause: unknown) => {
          throw new Error(`LibreOffice saved nothing: ${said}`, { cause });
        });
      },
      new Map([['registrymodifications.xcu', settings], ...saveMacro]),
    ),
  );
}

/**
 * Every value of an xlsx or ods file as LibreOffice calculates it anew: rows of cells by sheet name.
 *
 * Read from an xlsx that it saves, as that keeps types (text "2" is not 2) and raw date serials. Numbers have
 * 15 significant digits: LibreOffice 7.4.7 writes no more in csv, xlsx, ods or fods (all four were tried), so
 * compare with a relative tolerance of 1e-14 or wider. Errors that Excel has no name for (Err:502 for a bad
 * argument, Err:522 for a circle) arrive as #VALUE!.
 */
export async function recalculatedCells(file: string): Promise<RecalculatedSheets> {
  return withTemporaryFolder(async (folder) =>
    readSavedValues(await readFile(await convertTo(file, 'xlsx', folder))),
  );
}
