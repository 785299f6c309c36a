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

function profileXml(more: readonly ProfileSetting[], locale = 'en-US'): string {
  const usual = PROFILE_SETTINGS.map(
    ([path, name, value]) => [path, name, value === 'en-US' ? locale : value] as const,
  );
  const items = [...usual, ...more].map(
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

/** Filters by which LibreOffice saves. */
const FILTERS = { xlsx: 'Calc MS Excel 2007 XML', ods: 'calc8' } as const;

/**
 * Opens a workbook in LibreOffice, changes it by statements of its Basic, and saves it in one or more formats, as
 * somebody would who works in it. Within the statements, `doc` is the workbook. Sheets are open to change.
 *
 * @param locale in which typed figures (`FormulaLocal`) are read
 * @param saveAs the paths to save to; their endings say how
 */
export async function editInLibreOffice(
  file: string,
  statements: readonly string[],
  saveAs: readonly string[],
  locale = 'en-US',
): Promise<void> {
  const program = findLibreOffice();
  if (program === undefined) throw new Error('LibreOffice is not installed (no soffice on PATH)');
  for (const each of saveAs) await rm(each, { force: true });
  await withTemporaryFolder(async (profile) => {
    const library = join(profile, 'user', 'basic', 'Standard');
    await mkdir(join(profile, 'user'), { recursive: true });
    await writeFile(join(profile, 'user', 'registrymodifications.xcu'), profileXml([], locale));
    const environment = `-env:UserInstallation=${pathToFileURL(profile).href}`;
    // A profile that was never started in runs no macro.
    await run(program, [environment, '--headless', '--norestore', '--terminate_after_init']);
    for (const [name, xml] of Object.entries(basicLibrary(file, statements, saveAs)))
      await writeFile(join(library, name), xml);
    const said = await run(program, [
      environment,
      '--headless',
      '--norestore',
      'macro:///Standard.Edits.Main',
    ]);
    for (const each of saveAs)
      await access(each).catch(async (cause: unknown) => {
        const why = await readFile(`${saveAs[0]}.failed`, 'utf8').catch(() => said);
        throw new Error(`LibreOffice saved nothing: ${why}`, { cause });
      });
  });
}

/** A sub takes so many statements before it becomes too long for the interpreter. */
const STATEMENTS_A_SUB = 100;

function basicLibrary(
  file: string,
  statements: readonly string[],
  saveAs: readonly string[],
): Record<string, string> {
  const parts = Array.from({ length: Math.ceil(statements.length / STATEMENTS_A_SUB) }, (_, at) =>
    statements.slice(at * STATEMENTS_A_SUB, (at + 1) * STATEMENTS_A_SUB),
  );
  const saves = saveAs.map((path) => {
    const filter = FILTERS[extname(path) === '.ods' ? 'ods' : 'xlsx'];
    return `how(0).Name = "FilterName" : how(0).Value = "${filter}"\ndoc.storeToURL("${pathToFileURL(path).href}", how())`;
  });
  const code = `Global doc As Object
Sub Main
  On Error GoTo Failed
  Dim how(0) As New com.sun.star.beans.PropertyValue
  how(0).Name = "Hidden" : how(0).Value = True
  doc = StarDesktop.loadComponentFromURL("${pathToFileURL(file).href}", "_blank", 0, how())
  doc.enableAutomaticCalculation(False)
  For at = 0 To doc.Sheets.Count - 1
    doc.Sheets.getByIndex(at).unprotect("")
  Next
${parts.map((_, at) => `  Part${at}`).join('\n')}
  doc.enableAutomaticCalculation(True)
  doc.calculateAll
${saves.join('\n')}
  doc.close(True)
Failed:
  If Err <> 0 Then
    Open "${saveAs[0] ?? ''}.failed" For Output As #1
    Print #1, Error$
    Close #1
  End If
  StarDesktop.terminate
End Sub
${parts.map((part, at) => `Sub Part${at}\n${part.join('\n')}\nEnd Sub`).join('\n')}
`;
  const text = code.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;');
  const head = '<?xml version="1.0" encoding="UTF-8"?>\n';
  return {
    'script.xlb': `${head}<!DOCTYPE library:library PUBLIC "-//OpenOffice.org//DTD OfficeDocument 1.0//EN" "library.dtd">
<library:library xmlns:library="http://openoffice.org/2000/library" library:name="Standard" library:readonly="false" library:passwordprotected="false"><library:element library:name="Edits"/></library:library>`,
    'dialog.xlb': `${head}<!DOCTYPE library:library PUBLIC "-//OpenOffice.org//DTD OfficeDocument 1.0//EN" "library.dtd">
<library:library xmlns:library="http://openoffice.org/2000/library" library:name="Standard" library:readonly="false" library:passwordprotected="false"/>`,
    'Edits.xba': `${head}<!DOCTYPE script:module PUBLIC "-//OpenOffice.org//DTD OfficeDocument 1.0//EN" "module.dtd">
<script:module xmlns:script="http://openoffice.org/2000/script" script:name="Edits" script:language="StarBasic">${text}</script:module>`,
  };
}

/** A statement that types a text into a cell, as the locale reads it. */
export function typed(sheet: string, row: number, column: number, text: string): string {
  return `doc.Sheets.getByName(${basicText(sheet)}).getCellByPosition(${column - 1}, ${row - 1}).FormulaLocal = ${basicText(text)}`;
}

/** A statement that puts a number, a text or nothing into a cell. */
export function put(sheet: string, row: number, column: number, value: number | string | null): string {
  const cell = `doc.Sheets.getByName(${basicText(sheet)}).getCellByPosition(${column - 1}, ${row - 1})`;
  return typeof value === 'number'
    ? `${cell}.Value = ${value}`
    : `${cell}.String = ${basicText(value ?? '')}`;
}

function basicText(text: string): string {
  // A text in Basic ends at the end of its line.
  return text
    .split('\n')
    .map((line) => `"${line.replaceAll('"', '""')}"`)
    .join(' & Chr(10) & ');
}
