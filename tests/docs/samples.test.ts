import { cpSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { inFreshFolder, runCli } from '../support/runCli.ts';

const top = join(import.meta.dirname, '../..');

it('docs/samples.md shows what the starter book really prints', async () => {
  const page = readFileSync(join(top, 'docs/samples.md'), 'utf8');
  const shown = /```\n\$ sennit fit my-book --weave bar\n([\s\S]*?)\n```/.exec(page)?.[1] ?? 'nothing';
  const cells = /```\n(Written to weaves\.csv:[\s\S]*?)\n```/.exec(page)?.[1] ?? 'nothing';
  await inFreshFolder(async (folder) => {
    cpSync(join(top, 'templates/books/starter'), join(folder, 'my-book'), { recursive: true });
    const { out } = await runCli(['fit', 'my-book', '--weave', 'bar', '--write'], { folder });
    expect(out.startsWith(shown)).toBe(true);
    expect(out).toContain(cells);
  });
});
