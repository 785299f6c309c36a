import { join } from 'node:path';
import type { BookText } from './books.ts';
import { writeBook } from './plainBook.ts';
import { type CliResult, inFreshFolder, runCli } from './runCli.ts';

/** Runs a command on a book given as files. */
export function onBook(book: BookText, command: string, ...options: string[]): Promise<CliResult> {
  return inFreshFolder((folder) => runCli([command, writeBook(join(folder, 'book'), book), ...options]));
}

/** What a command says of a book in JSON; throws with its messages where it does not answer. */
export async function askBook<Report>(
  book: BookText,
  command: string,
  ...options: string[]
): Promise<Report> {
  const { out, err, exitCode } = await onBook(book, command, ...options, '--json');
  if (exitCode !== 0) throw new Error(`${command} ${options.join(' ')}: exit code ${exitCode}\n${out}${err}`);
  return JSON.parse(out) as Report;
}
