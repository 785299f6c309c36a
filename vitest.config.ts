import { defineConfig, type ViteUserConfig } from 'vitest/config';

const config: ViteUserConfig = defineConfig({
  test: {
    include: ['tests/**/*.test.ts'],
    globalSetup: ['tests/support/announceMissingTools.ts'],
    testTimeout: 120_000,
    hookTimeout: 120_000,
    // Two cores and a spreadsheet program that likes one of them.
    maxWorkers: 2,
    coverage: { provider: 'v8', include: ['engine/**', 'cli/**'], reporter: ['text-summary', 'html'] },
  },
});

export default config;
