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
        'engine/**': { lines: 98, branches: 88 },
        'engine/book/**': { lines: 99, branches: 96 },
        'engine/calc/**': { lines: 98, branches: 91 },
        'engine/chance/**': { lines: 99, branches: 98 },
        'engine/cord/**': { lines: 99, branches: 98 },
        'engine/cutting/**': { lines: 99, branches: 89 },
        'engine/export/**': { lines: 98, branches: 86 },
        'engine/mix/**': { lines: 97, branches: 87 },
        'engine/money/**': { lines: 99, branches: 99 },
        'engine/month/**': { lines: 99, branches: 87 },
        'engine/origin/**': { lines: 99, branches: 96 },
        'engine/samples/**': { lines: 99, branches: 87 },
        'engine/sheets/**': { lines: 99, branches: 95 },
        'engine/stock/**': { lines: 99, branches: 87 },
        'engine/takein/**': { lines: 94, branches: 80 },
        'engine/whatif/**': { lines: 94, branches: 84 },
      },
    },
  },
});
