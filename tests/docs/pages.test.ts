import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { expectGolden, refreshing } from '../support/golden.ts';
import { inFreshFolder } from '../support/runCli.ts';
import { type Block, blocksOf } from './pages/blocks.ts';
import { addRows, changeSettings, runLine } from './pages/readerFolder.ts';
import { refreshed, showsOutput } from './pages/shownOutput.ts';

/**
 * Every block of every page is run, in order, in a fresh folder a page: `sh` is run, `text` and `json` after it is
 * what it prints, `csv` and `yaml` with a file's name is what the reader writes into that file. How a block is
 * marked that cannot be run stands in `pages/blocks.ts`. `npm run golden:refresh` writes what is printed now.
 */
const top = join(import.meta.dirname, '../..');
const pages = [
  'README.md',
  'DEVELOPERS.md',
  ...readdirSync(join(top, 'docs'), { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.md'))
    .map((name) => `docs/${name}`)
    .sort(),
];
/** Programs of the library's pages, and what they print, have tests of their own. */
const programs = ['ts', 'js', 'html'];
const outputs = ['text', 'json'];
const textOf = (page: string): string => readFileSync(join(top, page), 'utf8');

async function printedBy(block: Block, page: string, folder: string): Promise<string> {
  let printed = '';
  const lines = block.text
    .replaceAll('\\\n', ' ')
    .split('\n')
    .filter((line) => line.trim() !== '' && !line.startsWith('#'));
  for (const [index, line] of lines.entries()) {
    const { text, exitCode } = await runLine(line, folder);
    const awaited = index === lines.length - 1 ? block.exits : 0;
    expect(exitCode, `${page}:${block.line} ${line}\n${text}`).toBe(awaited);
    printed += text;
  }
  return printed;
}

async function runPage(page: string, folder: string): Promise<void> {
  const text = textOf(page);
  const anew: { readonly block: Block; readonly now: string }[] = [];
  let printed: string | undefined;
  let ofProgram = false;
  for (const block of blocksOf(text)) {
    const { language, file, line, notRun } = block;
    const isProgram = programs.includes(language);
    if (notRun !== undefined || isProgram || (ofProgram && outputs.includes(language))) {
      printed = undefined;
      ofProgram = isProgram;
      continue;
    }
    ofProgram = false;
    for (const command of block.runFirst)
      expect((await runLine(command, folder)).exitCode, `${page}:${line} ${command}`).toBe(0);
    if (language === 'sh') printed = await printedBy(block, page, folder);
    else if (outputs.includes(language) && printed !== undefined) {
      if (refreshing) anew.push({ block, now: refreshed(block.text, printed) });
      else if (!showsOutput(block.text, printed)) expectGolden(block.text, printed, `${page}:${line}`);
      printed = undefined;
    } else if (language === 'csv' && file !== '') addRows(file, block.text, folder);
    else if (language === 'yaml' && file !== '') changeSettings(file, block.text, folder);
    else throw new Error(`${page}:${line}: nothing can be done with this block of “${language}”`);
  }
  if (!refreshing) return;
  const lines = text.split('\n');
  for (const { block, now } of anew.reverse())
    lines.splice(block.line, block.text.split('\n').length - 1, ...now.replace(/\n$/, '').split('\n'));
  writeFileSync(join(top, page), lines.join('\n'));
}

describe('what the pages show is what the program does', () => {
  it.each(pages.filter((page) => blocksOf(textOf(page)).length > 0))('%s', (page) =>
    inFreshFolder((folder) => runPage(page, folder)),
  );

  it('few blocks are not run, and each says why', () => {
    const notRun = pages.flatMap((page) =>
      blocksOf(textOf(page)).flatMap(({ notRun: why }) => (why === undefined ? [] : [`${page}: ${why}`])),
    );
    expect(notRun.length, notRun.join('\n')).toBeLessThanOrEqual(6);
  });
});
