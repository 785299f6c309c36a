import { expect, test, vi } from 'vitest';
import announceMissingTools, { missingToolsNotice, tools } from './announceMissingTools.ts';

test('nothing is said where every judge is present', () => {
  expect(missingToolsNotice([])).toBe('');
});

test.each(tools)('each check that will not run without $name is named', (tool) => {
  const notice = missingToolsNotice([tool]);
  expect(notice).toContain('WILL NOT RUN');
  expect(notice).toContain(tool.name);
  expect(tool.checks.length).toBeGreaterThan(0);
  for (const check of tool.checks) expect(notice).toContain(check);
});

test('a missing judge is told on stderr, and is a failure where tools are required', () => {
  const write = vi.spyOn(process.stderr, 'write').mockReturnValue(true);
  vi.stubEnv('PATH', '/nowhere');
  vi.stubEnv('SENNIT_REQUIRE_TOOLS', '0');
  try {
    announceMissingTools();
    expect(write).toHaveBeenCalledTimes(1);
    for (const { name } of tools) expect(String(write.mock.calls[0]?.[0])).toContain(`${name} not found`);
    vi.stubEnv('SENNIT_REQUIRE_TOOLS', '1');
    expect(() => announceMissingTools()).toThrow('LibreOffice not found');
  } finally {
    vi.unstubAllEnvs();
    write.mockRestore();
  }
});
