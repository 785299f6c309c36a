import { cpSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { inFreshFolder, runCli } from '../support/runCli.ts';

const top = join(import.meta.dirname, '../..');
const file = join(top, 'docs/sweeps.md');
const refresh = process.env.SENNIT_REFRESH_GOLDEN === '1';
const page = readFileSync(file, 'utf8');
const blocks = [...page.matchAll(/^```\n\$ sennit (.+)\n([\s\S]*?)^```/gm)];

/** `--of "month's profit" --draws 20000`, as a shell takes it apart. */
function words(command: string): string[] {
  return [...command.matchAll(/"([^"]*)"|(\S+)/g)].map(([, quoted, bare]) => quoted ?? bare ?? '');
}

it('docs/sweeps.md shows all three commands', () => {
  const commands = new Set(blocks.map(([, command = '']) => words(command)[0]));
  expect(commands).toEqual(new Set(['sensitivity', 'solve', 'risk']));
});

it.each(blocks.map(([, command = '', shown = '']) => ({ command, shown })))(
  'docs/sweeps.md shows what the starter book really prints: sennit $command',
  async ({ command, shown }) => {
    await inFreshFolder(async (folder) => {
      cpSync(join(top, 'templates/books/starter'), join(folder, 'my-book'), { recursive: true });
      const { out } = await runCli(words(command), { folder });
      if (refresh) {
        const now = readFileSync(file, 'utf8');
        writeFileSync(
          file,
          now.replace(`$ sennit ${command}\n${shown}\`\`\``, () => `$ sennit ${command}\n${out}\`\`\``),
        );
        return;
      }
      expect(out).toBe(shown);
    });
  },
);
