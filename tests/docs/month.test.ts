import { cpSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { inFreshFolder, runCli } from '../support/runCli.ts';

const page = join(import.meta.dirname, '../../docs/month.md');
const starter = join(import.meta.dirname, '../../templates/books/starter');

describe('docs/month.md', () => {
  it('shows what the program really prints', () =>
    inFreshFolder(async (folder) => {
      cpSync(starter, join(folder, 'my-book'), { recursive: true });
      const { out, exitCode } = await runCli(['month', 'my-book', '2026-10'], { folder });
      expect(exitCode).toBe(0);
      const text = readFileSync(page, 'utf8');
      const block = /(## The starter book's October\n\n```\n)([\s\S]*?)(```)/;
      const shown = `$ sennit month my-book 2026-10\n${out}`;
      if (process.env.SENNIT_REFRESH_GOLDEN === '1')
        writeFileSync(
          page,
          text.replace(block, (_, head: string, __, end: string) => head + shown + end),
        );
      else expect(block.exec(text)?.[2]).toBe(shown);
    }));
});
