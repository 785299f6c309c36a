import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import Papa from 'papaparse';
import { runCli } from '../../support/runCli.ts';
import { words } from './blocks.ts';

/** What a reader sees and gets: standard output with what stands on standard error after it. */
interface Printed {
  readonly text: string;
  readonly exitCode: number;
}

/**
 * Runs one line of a `sh` block in the reader's folder: the program itself, or `cat` and `ls` of files there.
 *
 * @throws on any other command: mark the block as not run
 */
export async function runLine(line: string, folder: string): Promise<Printed> {
  const [program = '', ...args] = words(line.replace(/^npm run -s sennit --( |$)/, 'sennit '));
  if (program === 'cat') return { text: readFileSync(join(folder, args[0] ?? ''), 'utf8'), exitCode: 0 };
  if (program === 'ls')
    return {
      text: `${readdirSync(join(folder, args[0] ?? ''))
        .sort()
        .join('\n')}\n`,
      exitCode: 0,
    };
  if (program !== 'sennit') throw new Error(`“${program}” cannot be run here: ${line}`);
  const { out, err, exitCode } = await runCli(args, { folder });
  return { text: out + err, exitCode };
}

/**
 * Rows that the page asks a reader to write: put under the headings of the table that is there, as new last rows,
 * or a new file. A column that the table lacks is an error of the page.
 */
export function addRows(file: string, text: string, folder: string): void {
  const path = join(folder, file);
  if (!existsSync(path)) {
    mkdirSync(dirname(path), { recursive: true });
    writeFileSync(path, text);
    return;
  }
  const before = readFileSync(path, 'utf8');
  const headings = Papa.parse<string[]>(before).data[0] ?? [];
  const [columns = [], ...rows] = Papa.parse<string[]>(text, { skipEmptyLines: true }).data;
  const unknown = columns.filter((column) => !headings.includes(column));
  if (unknown.length > 0) throw new Error(`${file} has no column ${unknown.join(', ')}`);
  const added = rows.map((row) => headings.map((heading) => row[columns.indexOf(heading)] ?? ''));
  writeFileSync(path, `${before.replace(/\n*$/, '\n')}${Papa.unparse(added, { newline: '\n' })}\n`);
}

/** Settings that the page asks a reader to change: each line takes the place of the line of that name; or a new file. */
export function changeSettings(file: string, text: string, folder: string): void {
  const path = join(folder, file);
  if (!existsSync(path)) {
    mkdirSync(dirname(path), { recursive: true });
    writeFileSync(path, text);
    return;
  }
  let settings = readFileSync(path, 'utf8');
  for (const line of text.split('\n').filter((each) => each !== '')) {
    const name = line.split(':')[0] ?? '';
    const old = new RegExp(`^${name}:.*$`, 'm');
    if (!old.test(settings)) throw new Error(`${file} has no line “${name}”`);
    settings = settings.replace(old, () => line);
  }
  writeFileSync(path, settings);
}
