import { createHash } from 'node:crypto';
import { join } from 'node:path';
import { build } from 'esbuild';
import type { BookReport } from '../../../engine/export/report/bookReport.ts';
import { type PageCode, reportPage } from '../../../engine/export/report/reportPage.ts';
import { reportBook } from '../../../engine/reportBook.ts';
import { type BookText, sourceOf } from '../../support/books.ts';

const top = join(import.meta.dirname, '../../..');

/** What the page runs, bundled from the sources and not from a build that may be old. */
export async function pageCode(): Promise<PageCode> {
  const { outputFiles } = await build({
    absWorkingDir: top,
    entryPoints: ['page/main.ts'],
    bundle: true,
    write: false,
    format: 'iife',
    globalName: 'sennitPage',
    platform: 'browser',
    target: 'es2022',
    charset: 'ascii',
    minify: true,
  });
  const script = outputFiles[0]?.text;
  if (script === undefined) throw new Error('The page has no script');
  return { script, sha256: (text) => createHash('sha256').update(text, 'utf8').digest('base64') };
}

/** What the page of a book shows; throws with its problems where there are errors. */
export function reportOf(book: BookText): BookReport {
  const { report, problems } = reportBook(sourceOf(book));
  if (report === undefined)
    throw new Error(problems.map((each) => `${each.where.file}: ${each.message}`).join('\n'));
  return report;
}

export function pageOf(report: BookReport, code: PageCode): string {
  return reportPage(report, { date: '2026-11-25', version: '9.8.7' }, code);
}
