import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { type ProblemCode, problemCodes } from '../../engine/book/problems/problem.ts';
import { problemsText, problemText } from '../../engine/book/problems/problemText.ts';
import { priceBook } from '../../engine/priceBook.ts';
import { expectGolden, refreshing } from '../support/golden.ts';
import { type BookText, demoBook, sourceOf } from '../support/books.ts';

/**
 * One kind of mistake a file, and word for word what a maker is told about it. A file dropped into `broken/`
 * is a new test; `npm run golden:refresh` writes what is said now, and the diff is read as a change of voice.
 */
const folder = fileURLToPath(new URL('broken/', import.meta.url));

interface Edit {
  readonly file: string;
  readonly find?: string;
  readonly replace?: string;
  readonly text?: string;
  readonly append?: string;
  readonly remove?: boolean;
}

interface Case {
  readonly base: 'starter' | 'metric';
  readonly mistake: string;
  readonly edits: readonly Edit[];
  readonly says?: string;
}

function edited(files: Map<string, string>, edit: Edit): void {
  const { file } = edit;
  const before = files.get(file) ?? '';
  if (edit.remove === true) {
    if (!files.delete(file)) throw new Error(`There is no ${file} to remove`);
  } else if (edit.text !== undefined) {
    files.set(file, edit.text);
  } else if (edit.append !== undefined) {
    files.set(file, before + edit.append);
  } else if (edit.find !== undefined && edit.replace !== undefined) {
    const [start, rest, ...others] = before.split(edit.find);
    if (rest === undefined || others.length > 0) throw new Error(`“${edit.find}” must stand once in ${file}`);
    files.set(file, `${start}${edit.replace}${rest}`);
  } else {
    throw new Error(`An edit of ${file} says neither find and replace, text, append nor remove`);
  }
}

/** As `sennit check` reads a book: what happened must be right too. */
const checkFiles = (book: BookText) => priceBook({ ...sourceOf(book), strict: true });

const seen = new Set<ProblemCode>();

const untouched = new Map<string, ReadonlySet<string>>();

/** What the unbroken book is told as well, and is not about the mistake. */
function toldAnyway(base: Case['base']): ReadonlySet<string> {
  const known = untouched.get(base);
  if (known !== undefined) return known;
  const texts = new Set(checkFiles(demoBook(base)).problems.map(problemText));
  untouched.set(base, texts);
  return texts;
}

function told(given: Case): string {
  const files = demoBook(given.base);
  for (const edit of given.edits) edited(files, edit);
  const { problems } = checkFiles(files);
  for (const each of problems) seen.add(each.code);
  return problemsText(problems.filter((each) => !toldAnyway(given.base).has(problemText(each))));
}

function refresh(path: string, source: string, text: string): void {
  const head = source.replace(/^says:[\s\S]*$/m, '').trimEnd();
  const body = text.split('\n').map((line) => (line === '' ? '' : `  ${line}`));
  writeFileSync(path, `${head}\nsays: |\n${body.join('\n')}\n`);
}

describe('broken books', () => {
  for (const name of readdirSync(folder).sort()) {
    const path = `${folder}${name}`;
    const source = readFileSync(path, 'utf8');
    const given = parse(source) as Case;
    it(`${name.replace(/\.yaml$/, '')}: ${given.mistake}`, () => {
      const text = told(given);
      if (refreshing) refresh(path, source, text);
      else expectGolden(given.says, `${text}\n`, `tests/golden/broken/${name}`);
    });
  }

  it('there is a case for every problem that a book can cause', () => {
    // Told only when a workbook is written (tests/calc/compiled.test.ts) or taken in (tests/takein), of closed
    // months (tests/cli/month.test.ts), or of what happened (tests/stock/unlikely.test.ts).
    const elsewhere = (code: string): boolean =>
      ['programs-differ', 'month-closed', 'unlikely'].includes(code) || code.startsWith('workbook-');
    expect(problemCodes.filter((code) => !seen.has(code) && !elsewhere(code))).toEqual([]);
  });
});
