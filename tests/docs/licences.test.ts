import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { expectGolden, refreshing } from '../support/golden.ts';

const top = join(import.meta.dirname, '../..');
const shown = join(top, 'docs', 'licences.md');

interface Package {
  readonly name: string;
  readonly version: string;
  readonly licence: string;
}

const texts = readFileSync(join(top, 'dist', 'THIRD-PARTY-LICENCES.txt'), 'utf8').split(
  `\n${'-'.repeat(78)}\n\n`,
);
const bundled = (texts[0] ?? '')
  .split('\n')
  .map((line) => /^(\S+) (\S+) \((.*)\)$/.exec(line))
  .filter((found) => found !== null)
  .map(([, name = '', version = '', licence = '']): Package => ({ name, version, licence }));

const lock = JSON.parse(readFileSync(join(top, 'package-lock.json'), 'utf8')) as {
  readonly packages: Readonly<Record<string, { readonly version?: string; readonly license?: string }>>;
};
const installed = Object.entries(lock.packages)
  .filter(([path]) => path !== '')
  .map(
    ([path, { version = '', license = 'not said' }]): Package => ({
      name: path.replace(/^.*node_modules\//, ''),
      version,
      licence: license,
    }),
  );
const { devDependencies } = JSON.parse(readFileSync(join(top, 'package.json'), 'utf8')) as {
  readonly devDependencies: Readonly<Record<string, string>>;
};

/**
 * Licences whose code may be part of a work under GPL-3.0-only: the Free Software Foundation's list "Various licenses and
 * comments about them" (from memory) names each as compatible with version 3.
 */
const compatible = new Set([
  '0BSD',
  'Apache-2.0',
  'BSD-2-Clause',
  'BSD-3-Clause',
  'GPL-3.0-only',
  'ISC',
  'MIT',
  'Zlib',
]);

/** Whether an SPDX expression can be met: one side of an OR, both sides of an AND. */
const isCompatible = (licence: string): boolean => {
  const bare = licence.replace(/^\((.*)\)$/, '$1');
  if (bare.includes(' OR ')) return bare.split(' OR ').some(isCompatible);
  return bare.split(' AND ').every((each) => compatible.has(each));
};

const table = (rows: readonly Package[]): string =>
  [
    '| package | version | licence |',
    '|---|---|---|',
    ...rows.map(({ name, version, licence }) => `| ${name} | ${version} | ${licence} |`),
  ].join('\n');

function page(): string {
  const names = new Set(bundled.map(({ name }) => name));
  const tools = installed.filter(
    ({ name, version }) => devDependencies[name] === version && !names.has(name),
  );
  const counts = new Map<string, number>();
  for (const { licence } of installed) counts.set(licence, (counts.get(licence) ?? 0) + 1);
  const counted = [...counts]
    .sort(([one], [other]) => (one < other ? -1 : 1))
    .map(([licence, count]) => `${count} ${licence}`);
  return `# Licences of others' work

Sennit is under the GNU General Public License, version 3 only. This page is written by \`npm run golden:refresh\`; a test
fails where it is stale, where a licence in the bundle does not go with that one, or where its words are missing.

## In the bundle

What \`dist/\` holds of others. Their words stand in \`dist/THIRD-PARTY-LICENCES.txt\`, which is packed with the program.

${table(bundled)}

## Tools of development

What is named in \`package.json\` and is not in the bundle.

${table(tools)}

With all that these bring along, ${installed.length} packages are in the lock file: ${counted.join(', ')}.
`;
}

describe("licences of others' work", () => {
  it('are compatible with that of Sennit wherever they are in the bundle', () => {
    expect(bundled.length).toBeGreaterThan(20);
    expect(bundled.filter(({ licence }) => !isCompatible(licence))).toEqual([]);
  });

  it('an expression is met by one side of an OR and by both of an AND', () => {
    expect(['MIT', '(MIT OR GPL-2.0-only)', '(MIT AND Zlib)'].map(isCompatible)).toEqual([true, true, true]);
    expect(['GPL-2.0-only', '(MIT AND GPL-2.0-only)', 'not said'].map(isCompatible)).toEqual([
      false,
      false,
      false,
    ]);
  });

  it('come with their words', () => {
    expect(texts.slice(1)).toHaveLength(bundled.length);
    for (const [at, { name, licence }] of bundled.entries()) {
      const text = texts[at + 1] ?? '';
      expect(text).toMatch(new RegExp(`^${name} `));
      if (licence !== 'Apache-2.0' && !licence.startsWith('GPL')) expect(text, name).toMatch(/copyright/i);
      expect(text.length, name).toBeGreaterThan(500);
    }
  });

  it('hold for everything that runs: no code from a ready-made bundle of others', () => {
    // What a file of node_modules brings along inside itself would have no licence here.
    expect(bundled.map(({ name }) => name)).toEqual(
      expect.arrayContaining(['exceljs', 'jszip', 'pako', 'highs', 'zrender']),
    );
  });

  it('are listed on their page as they are', () => {
    if (refreshing) writeFileSync(shown, page());
    expectGolden(readFileSync(shown, 'utf8'), page(), 'docs/licences.md');
  });
});
