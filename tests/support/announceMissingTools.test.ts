import { expect, test, vi } from 'vitest';
import announceMissingTools, { checksByLibreOffice, missingToolsNotice } from './announceMissingTools.ts';

test('nothing is said where the judge is present', () => {
  expect(missingToolsNotice('/usr/bin/soffice')).toBe('');
});

test('each check that will not run is named', () => {
  const notice = missingToolsNotice(undefined);
  expect(notice).toContain('WILL NOT RUN');
  for (const check of checksByLibreOffice) expect(notice).toContain(check);
});

test('a missing judge is told on stderr, and is a failure where tools are required', () => {
  const write = vi.spyOn(process.stderr, 'write').mockReturnValue(true);
  vi.stubEnv('PATH', '/nowhere');
  vi.stubEnv('SENNIT_REQUIRE_TOOLS', '0');
  try {
    announceMissingTools();
    expect(write).toHaveBeenCalledTimes(1);
    vi.stubEnv('SENNIT_REQUIRE_TOOLS', '1');
    expect(() => announceMissingTools()).toThrow('LibreOffice not found');
  } finally {
    vi.unstubAllEnvs();
    write.mockRestore();
  }
});
