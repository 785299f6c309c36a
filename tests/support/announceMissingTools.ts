import { findBrowser, findPdfText } from './browser.ts';
import { findProgram } from './findProgram.ts';
import { findLibreOffice } from './libreoffice.ts';

/** A judge from outside that a machine may lack, with the checks that need it. */
export interface Tool {
  readonly name: string;
  /** What is looked for on PATH. */
  readonly command: string;
  readonly find: () => string | undefined;
  readonly checks: readonly string[];
}

/** The tools, so that whoever lacks one knows what was not looked at. */
export const tools: readonly Tool[] = Object.freeze([
  {
    name: 'LibreOffice',
    command: 'soffice',
    find: findLibreOffice,
    checks: [
      'rounding ties, computed again by LibreOffice (tests/checks/roundingTies)',
      'exported workbooks, computed again by LibreOffice (tests/workbook)',
      'the recalculation harness itself (tests/support/libreoffice)',
    ],
  },
  {
    name: 'Chromium',
    command: 'chromium',
    find: findBrowser,
    checks: [
      'bench cards on screen and on paper (tests/export/cards/inBrowser)',
      'the page of a book and its sliders (tests/export/report)',
      'the library in a page (tests/library/inBrowser)',
    ],
  },
  {
    name: 'pdftotext',
    command: 'pdftotext, of poppler-utils',
    find: findPdfText,
    checks: [
      'the text of printed bench cards (tests/export/cards/inBrowser)',
      'the text of the printed page (tests/export/report/inBrowser)',
    ],
  },
  ...['zsh', 'fish'].map((shell) => ({
    name: shell,
    command: shell,
    find: () => findProgram(shell),
    checks: [`the completion of commands, read by ${shell} itself (tests/cli/completion)`],
  })),
]);

/** What to say on stderr; empty where nothing is missing. */
export function missingToolsNotice(missing: readonly Tool[]): string {
  return missing
    .map(({ name, command, checks }) =>
      [
        '',
        `!!! ${name} not found (${command} on PATH). THESE CHECKS WILL NOT RUN:`,
        ...checks.map((check) => `  - ${check}`),
        '',
      ].join('\n'),
    )
    .join('');
}

/**
 * vitest global set-up: a skipped judge must never go unnoticed. With SENNIT_REQUIRE_TOOLS=1 (as the
 * project's own check sets it) it is a failure. Throws in that case only.
 */
export default function announceMissingTools(): void {
  const notice = missingToolsNotice(tools.filter(({ find }) => find() === undefined));
  if (notice === '') return;
  process.stderr.write(`${notice}\n`);
  if (process.env.SENNIT_REQUIRE_TOOLS === '1') throw new Error(notice);
}
