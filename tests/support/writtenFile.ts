import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { expect, it } from 'vitest';
import { inFreshFolder, runCli } from './runCli.ts';

/** Runs a command on a fresh starter book called mine, after a test has changed it; then the test looks around. */
export type OnFreshBook = (
  args: readonly string[],
  change?: (folder: string) => void,
  look?: (folder: string) => void,
) => ReturnType<typeof runCli>;

export function onFreshBook(command: string): OnFreshBook {
  return (args, change = () => {}, look = () => {}) =>
    inFreshFolder(async (folder) => {
      await runCli(['new', 'mine'], { folder });
      change(folder);
      const result = await runCli([command, 'mine', ...args], { folder });
      look(folder);
      return result;
    });
}

/**
 * What every command promises that writes one file beside the book.
 *
 * @param file what it writes where nothing is said
 * @param mark a text that the file holds
 */
export function writesOneFile(run: OnFreshBook, file: string, mark: string): void {
  const name = basename(file).replace('mine-', '');

  it('does not write over a file unless told to', async () => {
    const kept = (folder: string): void => writeFileSync(join(folder, file), 'mine');
    const { exitCode, err } = await run([], kept, (folder) => {
      expect(readFileSync(join(folder, file), 'utf8')).toBe('mine');
    });
    expect(exitCode).toBe(1);
    expect(err).toContain(`${file} is there already; nothing was written.`);
    const replaced = await run(['--replace'], kept, (folder) => {
      expect(readFileSync(join(folder, file), 'utf8')).toContain(mark);
    });
    expect(replaced.exitCode).toBe(0);
  });

  it('leaves nothing half-written where it cannot write', async () => {
    const { exitCode, err } = await run(
      ['--out', `shelf/${name}`],
      (folder) => writeFileSync(join(folder, 'shelf'), ''),
      (folder) => {
        expect(readdirSync(folder).sort()).toEqual(['mine', 'shelf']);
      },
    );
    expect(exitCode).toBe(1);
    expect(err).toContain(`shelf/${name} could not be written: `);
    const away = await run(['--out', `away/${name}`]);
    expect(away.err).toContain('there is no such folder');
  });

  it('writes into a folder that is there', async () => {
    await run(
      ['--out', `desk/${name}`],
      (folder) => mkdirSync(join(folder, 'desk')),
      (folder) => {
        expect(existsSync(join(folder, 'desk', name))).toBe(true);
      },
    );
  });
}
