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
      // A test that fails takes half an hour of measuring with it otherwise.
      reportOnFailure: true,
      // What was measured, room by room (DEVELOPERS.md), less a little for draws that fall otherwise.
      thresholds: {
        'engine/**': { lines: 95, branches: 84 },
        'engine/book/**': { lines: 98, branches: 96 },
        'engine/calc/**': { lines: 98, branches: 90 },
        'engine/chance/**': { lines: 98, branches: 98 },
        'engine/cord/**': { lines: 99, branches: 98 },
        'engine/cutting/**': { lines: 98, branches: 88 },
        'engine/mix/**': { lines: 93, branches: 86 },
        'engine/money/**': { lines: 99, branches: 98 },
        'engine/month/**': { lines: 98, branches: 86 },
        'engine/origin/**': { lines: 98, branches: 95 },
        'engine/samples/**': { lines: 98, branches: 86 },
        'engine/sheets/**': { lines: 98, branches: 93 },
        'engine/stock/**': { lines: 98, branches: 86 },
      },
    },
  },
});
