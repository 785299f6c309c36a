import { execFileSync } from 'node:child_process';
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { manPage } from '../../cli/manPage.ts';
import { programOf } from '../../cli/program.ts';
import { findProgram } from '../support/findProgram.ts';
import { expectGolden, refreshing } from '../support/golden.ts';
import { runCli } from '../support/runCli.ts';

const io = { out: () => {}, err: () => {}, env: {}, now: () => new Date(0), folder: '.' };
const program = programOf(io, { exitCode: 0 });
const names = program.commands.map((each) => each.name());
const top = join(import.meta.dirname, '../..');
const file = join(top, 'docs', 'sennit.1');

describe('help of every command', () => {
  it.each(names)(
    '%s: what it does, examples, what it writes, exit codes, what to read besides',
    async (name) => {
      const { exitCode, out } = await runCli(['help', name]);
      expect(exitCode).toBe(0);
      expect(out).toContain(`Usage: sennit ${name}`);
      expect(out).toContain(`$ sennit ${name}`.replace('$ sennit completion', 'sennit completion'));
      expect(out).toContain('\nWrites: ');
      expect(out).toContain('\nExit codes: 0 done; 1 ');
      const also = out.split('\nSee also: ')[1] ?? '';
      if (name !== 'completion') expect(also).not.toBe('');
      for (const each of also
        .trim()
        .split(', ')
        .filter((one) => one !== '')) {
        if (each.startsWith('docs/')) expect(existsSync(join(top, each)), each).toBe(true);
        else expect(names).toContain(each.replace('sennit ', ''));
      }
    },
  );
});

describe('the manual page', () => {
  it('is as the commands are', () => {
    if (refreshing) {
      mkdirSync(dirname(file), { recursive: true });
      writeFileSync(file, manPage(program));
    }
    expectGolden(readFileSync(file, 'utf8'), manPage(program), 'docs/sennit.1');
  });

  it.skipIf(findProgram('groff') === undefined)('is set without a warning', () => {
    const told = execFileSync('bash', ['-c', 'groff -man -Tutf8 -ww "$1" 2>&1 >/dev/null', 'bash', file], {
      encoding: 'utf8',
    });
    expect(told).toBe('');
    const read = execFileSync('bash', ['-c', 'groff -man -Tutf8 -P-cbou "$1"', 'bash', file], {
      encoding: 'utf8',
    });
    for (const name of names) expect(read).toContain(`sennit ${name}`);
    expect(read).toContain('--scenario');
  });
});
