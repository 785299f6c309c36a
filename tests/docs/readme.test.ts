import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { runCli } from '../support/runCli.ts';

describe('README.md', () => {
  it('shows what the program really prints', async () => {
    const readme = readFileSync('README.md', 'utf8');
    const [block = '', ...more] = [...readme.matchAll(/^\$ npm run -s sennit -- (.+)\n([\s\S]*?)^```/gm)].map(
      ([, , out]) => out ?? '',
    );
    expect(more).toEqual([]);
    const { out } = await runCli(['cord', '--length', '7 in', '--colours', 'over=red, under=black']);
    expect(block).toBe(out);
  });
});
