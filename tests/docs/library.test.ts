import { existsSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import ts from 'typescript';
import { beforeAll, describe, expect, it } from 'vitest';
import { run, typeErrors, withConsumer } from '../support/consumer.ts';
import { expectGolden, refreshing } from '../support/golden.ts';
import { libraryReference } from './libraryReference.ts';

const page = 'docs/library.md';
const reference = 'docs/reference/library.md';

/** An example of the page: its code, and the text that it shows as printed. */
interface Example {
  readonly code: string;
  readonly shown: string;
}

function examples(markdown: string): readonly Example[] {
  return [...markdown.matchAll(/^```ts\n([\s\S]*?)^```\n\n^```text\n([\s\S]*?)^```/gm)].map(
    ([, code = '', shown = '']) => ({ code, shown }),
  );
}

describe(page, () => {
  let found: readonly Example[] = [];
  const printed: string[] = [];
  let errors: readonly string[] = [];
  let wroteWorkbook = false;

  beforeAll(async () => {
    found = examples(readFileSync(page, 'utf8'));
    await withConsumer((folder) => {
      const names = found.map(({ code }, at) => {
        writeFileSync(join(folder, `example${at}.ts`), code);
        const { outputText } = ts.transpileModule(code, {
          compilerOptions: { target: ts.ScriptTarget.ES2022, module: ts.ModuleKind.ESNext },
        });
        writeFileSync(join(folder, `example${at}.js`), outputText);
        return `example${at}`;
      });
      errors = typeErrors(
        folder,
        names.map((name) => `${name}.ts`),
        'nodenext',
        ['node'],
      );
      run(join(folder, 'node_modules', '.bin', 'sennit'), ['new', 'my-book'], folder);
      for (const name of names) printed.push(run(process.execPath, [`${name}.js`], folder));
      wroteWorkbook = existsSync(join(folder, 'my-book.xlsx'));
    });
  });

  it('has examples that are whole programs: the compiler has nothing to say of them', () => {
    expect(found.length).toBeGreaterThanOrEqual(5);
    expect(errors).toEqual([]);
  });

  it('shows what each example prints, run against the packed library', () => {
    if (refreshing) {
      let at = 0;
      const text = readFileSync(page, 'utf8').replace(
        /^(```ts\n[\s\S]*?^```\n\n^```text\n)[\s\S]*?(^```)/gm,
        (_, before: string, after: string) => `${before}${printed[at++] ?? ''}${after}`,
      );
      writeFileSync(page, text);
    } else {
      const shown = found.map((each) => each.shown);
      expectGolden(shown, printed, page);
    }
    expect(printed.every((text) => text !== '')).toBe(true);
    expect(wroteWorkbook).toBe(true);
  });

  it('states the sizes for a page', () => {
    const folder = 'dist/browser';
    const sizeOf = (names: Iterable<string>): number =>
      [...names].reduce((sum, name) => sum + statSync(join(folder, name)).size, 0);
    // What index.js imports at the start is loaded with it; the rest when it is asked for.
    const start = sizeOf(startFiles(folder));
    const all = sizeOf(readdirSync(folder));
    const solver = statSync('dist/highs.wasm').size;
    const told = [...readFileSync(page, 'utf8').matchAll(/([\d.]+) MB/g)].map(([, size]) => Number(size));
    const mb = (bytes: number): number => Math.round(bytes / 100_000) / 10;
    expect(told).toEqual([mb(start), mb(all), mb(solver)]);
  });
});

/** The files that a page loads before its first question. */
function startFiles(folder: string): ReadonlySet<string> {
  const files = new Set(['index.js']);
  for (const name of files)
    for (const [, other = ''] of readFileSync(join(folder, name), 'utf8').matchAll(
      /(?:from|import)"\.\/([\w-]+\.js)"/g,
    ))
      files.add(other);
  return files;
}

describe(reference, () => {
  it('says what the declarations say', () => {
    const text = libraryReference(
      readFileSync('dist/index.d.ts', 'utf8'),
      readFileSync('dist/node.d.ts', 'utf8'),
    );
    if (refreshing) writeFileSync(reference, text);
    expectGolden(readFileSync(reference, 'utf8'), text, reference);
  });
});
