import { createHash } from 'node:crypto';
import { existsSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { PageCode } from '../engine/export/report/reportPage.ts';

/** What a page runs: it lies beside the built program, which also is where the sources find it. */
export function pageCode(): PageCode {
  const here = dirname(fileURLToPath(import.meta.url));
  const beside = join(here, 'page.js');
  const file = existsSync(beside) ? beside : join(here, '..', 'dist', 'page.js');
  return {
    script: readFileSync(file, 'utf8'),
    sha256: (text) => createHash('sha256').update(text, 'utf8').digest('base64'),
  };
}
