import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { problemCodes } from '../../engine/index.ts';

const page = readFileSync('docs/errors.md', 'utf8');
const documented = [...page.matchAll(/^\| `([a-z-]+)` \|/gm)].map((match) => match[1]);

describe('docs/errors.md', () => {
  it('has one row for every problem code and no other', () => {
    expect([...documented].sort()).toEqual([...problemCodes].sort());
  });
});
