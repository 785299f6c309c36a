import { defineConfig } from 'vitest/config';
import { templatesForTests } from './build/templates.mjs';

export default defineConfig({
  plugins: [templatesForTests(import.meta.dirname)],
  test: {
    include: ['tests/**/*.test.ts'],
    globalSetup: ['tests/support/announceMissingTools.ts'],
    testTimeout: 120_000,
    hookTimeout: 120_000,
    // Two cores and a spreadsheet program that likes one of them.
    maxWorkers: 2,
    coverage: {
      provider: 'v8',
      include: ['engine/**', 'cli/**', 'library/**'],
      reporter: ['text-summary', 'html'],
    },
  },
});
