import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { problemCodes } from '../../engine/index.ts';

const page = readFileSync('docs/errors.md', 'utf8');
const documented = [...page.matchAll(/^\| `([a-z-]+)` \|/gm)].map((match) => match[1]);

describe('docs/errors.md', () => {
  it('has one row for every problem code and no other', () => {
    expect([...documented].sort()).toEqual([...problemCodes].sort());
  });

  it('has a row for every exit code, and the built program gives each of them', () => {
    const codes = [...page.matchAll(/^\| (\d) \|/gm)].map((match) => Number(match[1]));
    expect(codes).toEqual([0, 1, 2, 3]);
    const sennit = fileURLToPath(new URL('../../dist/sennit.js', import.meta.url));
    const run = (args: readonly string[], preload: readonly string[] = []): number | null =>
      spawnSync(process.execPath, [...preload, sennit, ...args]).status;
    // A fault of our own: an error without a code of the system, where files are listed.
    const fault = `data:text/javascript,import fs from 'node:fs';import{syncBuiltinESMExports as s}from'node:module';fs.readdirSync=()=>{throw new TypeError('fault')};s()`;
    expect(run(['--version'])).toBe(0);
    expect(run(['check', 'no-such-book'])).toBe(1);
    expect(run(['no-such-command'])).toBe(2);
    expect(run(['check', 'templates/books/starter'], ['--import', fault])).toBe(3);
  });
});
