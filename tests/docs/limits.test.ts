import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import * as limits from '../../engine/book/limits.ts';
import * as saved from '../../engine/takein/read/savedWorkbook.ts';

const page = readFileSync('docs/limits.md', 'utf8');

it('docs/limits.md says every limit as it is', () => {
  const all = [...Object.values(limits), ...Object.values(saved)].filter((each) => typeof each === 'number');
  expect(all.length).toBeGreaterThan(10);
  for (const each of all) expect(page, String(each)).toContain(each.toLocaleString('en'));
});
