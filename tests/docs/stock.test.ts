import { cpSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { inFreshFolder, runCli } from '../support/runCli.ts';

const top = join(import.meta.dirname, '../..');
const path = join(top, 'docs/stock.md');

it('docs/stock.md shows what the starter book really prints', async () => {
  await inFreshFolder(async (folder) => {
    cpSync(join(top, 'templates/books/starter'), join(folder, 'my-book'), { recursive: true });
    let page = readFileSync(path, 'utf8');
    const blocks = [...page.matchAll(/```\n\$ sennit ([^\n]+)\n([\s\S]*?)```/g)];
    expect(blocks.length).toBe(2);
    for (const [block, given = '', shown = ''] of blocks) {
      const args = [...given.matchAll(/"([^"]*)"|(\S+)/g)].map(([, quoted, plain]) => quoted ?? plain ?? '');
      const { out } = await runCli(args, { folder });
      // What to do next is of this folder, and no part of the answer.
      const answer = `${out.split('\nNext:')[0]?.trimEnd()}\n`;
      if (process.env.SENNIT_REFRESH_GOLDEN === '1')
        page = page.replace(block, () => `\`\`\`\n$ sennit ${given}\n${answer}\`\`\``);
      else expect(shown).toBe(answer);
    }
    if (process.env.SENNIT_REFRESH_GOLDEN === '1') writeFileSync(path, page);
  });
});
