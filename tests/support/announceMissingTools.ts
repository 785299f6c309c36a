import { findLibreOffice } from './libreoffice.ts';

/** The checks that need LibreOffice, so that whoever lacks it knows what was not looked at. */
export const checksByLibreOffice: readonly string[] = Object.freeze([
  'rounding ties, computed again by LibreOffice (tests/checks/roundingTies)',
  'exported workbooks, computed again by LibreOffice (tests/workbook)',
  'the recalculation harness itself (tests/support/libreoffice)',
]);

/** What to say on stderr; empty where nothing is missing. */
export function missingToolsNotice(libreOffice: string | undefined): string {
  if (libreOffice !== undefined) return '';
  const lines = checksByLibreOffice.map((check) => `  - ${check}`);
  return ['', '!!! LibreOffice not found (soffice on PATH). THESE CHECKS WILL NOT RUN:', ...lines, ''].join(
    '\n',
  );
}

/**
 * vitest global set-up: a skipped judge must never go unnoticed. With SENNIT_REQUIRE_TOOLS=1 (as the
 * project's own check sets it) it is a failure. Throws in that case only.
 */
export default function announceMissingTools(): void {
  const notice = missingToolsNotice(findLibreOffice());
  if (notice === '') return;
  process.stderr.write(`${notice}\n`);
  if (process.env.SENNIT_REQUIRE_TOOLS === '1') throw new Error(notice);
}
