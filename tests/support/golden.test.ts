import { readdirSync, readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { expectGolden } from './golden.ts';

it('a text that is behind the program says how it is written anew', () => {
  expect(() => expectGolden('then', 'now', 'docs/page.md')).toThrow(
    /docs\/page\.md does not say .* `npm run golden:refresh`/,
  );
  expectGolden('now', 'now', 'docs/page.md');
});

it('every test that can write a text anew says so by way of it', () => {
  const own = ['tests/support/golden.ts', 'tests/support/golden.test.ts'];
  const tests = readdirSync('tests', { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.ts'))
    .map((name) => ({ file: `tests/${name}`, text: readFileSync(`tests/${name}`, 'utf8') }));
  const astray = tests.filter(
    ({ file, text }) => !own.includes(file) && text.includes('SENNIT_REFRESH_GOLDEN'),
  );
  expect(astray.map(({ file }) => file)).toEqual([]);
  const writing = tests.filter(({ text }) =>
    /import \{[^}]*\brefreshing\b[^}]*\} from '[./]+\/support\/golden\.ts'/.test(text),
  );
  expect(writing.length).toBeGreaterThan(7);
  const { scripts } = JSON.parse(readFileSync('package.json', 'utf8')) as { scripts: Record<string, string> };
  const run = /vitest run (.*)$/.exec(scripts['golden:refresh'] ?? '')?.[1]?.split(' ') ?? [];
  for (const { file, text } of writing) {
    expect(text, file).toContain('expectGolden(');
    expect(
      run.some((each) => file.startsWith(each)),
      `golden:refresh runs ${file}`,
    ).toBe(true);
  }
});
