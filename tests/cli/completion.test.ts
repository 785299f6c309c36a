import { execFileSync } from 'node:child_process';
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { commandWords } from '../../cli/completion/commandWords.ts';
import { programOf } from '../../cli/program.ts';
import { findProgram } from '../support/findProgram.ts';
import { inFreshFolder, runCli } from '../support/runCli.ts';

const io = { out: () => {}, err: () => {}, env: {}, now: () => new Date(0), folder: '.' };
const commands = commandWords(programOf(io, { exitCode: 0 }));
const shells = ['bash', 'zsh', 'fish'] as const;
const script = async (shell: string): Promise<string> => (await runCli(['completion', shell])).out;

describe.each(shells)('completion for %s', (shell) => {
  it('knows every command and every option', async () => {
    const text = await script(shell);
    for (const { name, options } of commands) {
      expect(text).toMatch(new RegExp(`\\b${name}\\b`));
      for (const { long } of options) expect(text).toContain(shell === 'fish' ? `-l ${long.slice(2)}` : long);
    }
  });

  it.skipIf(findProgram(shell) === undefined)('is a script that the shell can read', () =>
    inFreshFolder(async (folder) => {
      const file = join(folder, 'script');
      writeFileSync(file, await script(shell));
      execFileSync(shell, [shell === 'fish' ? '--no-execute' : '-n', file], { stdio: 'pipe' });
    }),
  );
});

const fish = findProgram('fish') ?? '';

describe.skipIf(fish === '')('fish, asked for real', () => {
  it('offers commands, options and words', () =>
    inFreshFolder(async (folder) => {
      const file = join(folder, 'script.fish');
      writeFileSync(file, await script('fish'));
      const offered = (line: string): string[] =>
        execFileSync(fish, ['--no-config', '-c', `source ${file}; complete -C '${line}'`], {
          encoding: 'utf8',
          env: { ...process.env, HOME: folder },
        })
          .trim()
          .split('\n')
          .map((each) => each.split('\t')[0] ?? '');
      expect(offered('sennit pri')).toEqual(['price', 'pricelist']);
      expect(offered('sennit price --cha')).toEqual(['--channel']);
      expect(offered('sennit completion f')).toEqual(['fish']);
    }));
});

it('knows three shells, and says so', async () => {
  const { exitCode, err } = await runCli(['completion', 'cmd']);
  expect(exitCode).toBe(2);
  expect(err).toContain('bash, zsh, fish');
});

describe.skipIf(findProgram('bash') === undefined)('bash, asked for real', () => {
  const folder = (work: (folder: string) => Promise<void>) =>
    inFreshFolder(async (place) => {
      mkdirSync(join(place, 'my book'));
      mkdirSync(join(place, 'mine'));
      writeFileSync(join(place, 'minutes.txt'), '');
      await work(place);
    });
  /** What bash offers for the last word of a line. */
  async function offered(place: string, ...words: string[]): Promise<string[]> {
    const asked = `${await script('bash')}
COMP_WORDS=("$@"); COMP_CWORD=$(($# - 1)); _sennit; printf '%s\\n' "\${COMPREPLY[@]}"`;
    const out = execFileSync('bash', ['--norc', '-c', asked, 'bash', ...words], {
      cwd: place,
      encoding: 'utf8',
    });
    return out.split('\n').filter((line) => line !== '');
  }

  it('offers commands', () =>
    folder(async (place) => {
      expect(await offered(place, 'sennit', 'pr')).toEqual(['price', 'pricelist']);
      expect(await offered(place, 'sennit', '')).toEqual(
        expect.arrayContaining(['new', 'help', '--version']),
      );
      expect(await offered(place, 'sennit', 'help', 'so')).toEqual(['solve']);
    }));

  it('offers options of the command', () =>
    folder(async (place) => {
      const found = await offered(place, 'sennit', 'workbook', 'mine', '--no');
      expect(found).toEqual(['--no-batch']);
      expect(await offered(place, 'sennit', 'price', '--cha')).toEqual(['--channel']);
    }));

  it('offers folders where a book stands, blanks in names too', () =>
    folder(async (place) => {
      expect((await offered(place, 'sennit', 'price', 'm')).sort()).toEqual(['mine', 'my book']);
    }));

  it('offers files where one is named, words where only some can stand, and nothing where nobody knows', () =>
    folder(async (place) => {
      expect((await offered(place, 'sennit', 'cut', 'mine', '--make', 'min')).sort()).toEqual([
        'mine',
        'minutes.txt',
      ]);
      expect(await offered(place, 'sennit', 'takein', 'minutes.txt', '--prefer', 'b')).toEqual(['book']);
      expect(await offered(place, 'sennit', 'completion', 'f')).toEqual(['fish']);
      expect(await offered(place, 'sennit', 'price', 'mine', '--channel', '')).toEqual([]);
    }));
});
