import {
  existsSync,
  lstatSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { inFreshFolder, runCli } from '../support/runCli.ts';

describe('sennit new', () => {
  it('removes nothing that it did not make', () =>
    inFreshFolder(async (folder) => {
      mkdirSync(join(folder, 'mine.part'));
      writeFileSync(join(folder, 'mine.part', 'diary.txt'), 'mine');
      expect((await runCli(['new', 'mine'], { folder })).exitCode).toBe(0);
      expect(readFileSync(join(folder, 'mine.part', 'diary.txt'), 'utf8')).toBe('mine');
      expect(readdirSync(folder).sort()).toEqual(['mine', 'mine.part']);
    }));

  it('makes a folder that others may read, as mkdir does', () =>
    inFreshFolder(async (folder) => {
      await runCli(['new', 'mine'], { folder });
      mkdirSync(join(folder, 'other'));
      const modeOf = (name: string): number => lstatSync(join(folder, name)).mode;
      expect(modeOf('mine')).toBe(modeOf('other'));
    }));

  it('fills the folder that the maker stands in, and does not replace it', () =>
    inFreshFolder(async (folder) => {
      const before = lstatSync(folder).ino;
      const { exitCode, out } = await runCli(['new', '.'], { folder });
      expect(exitCode).toBe(0);
      expect(out).toContain('A starter book stands in this folder.\n');
      expect(lstatSync(folder).ino).toBe(before);
      expect(readdirSync(folder)).toContain('book.yaml');
      expect(readdirSync(folder).filter((name) => name.startsWith('.'))).toEqual([]);
    }));

  it('follows a link to an empty folder', () =>
    inFreshFolder(async (folder) => {
      mkdirSync(join(folder, 'real'));
      symlinkSync(join(folder, 'real'), join(folder, 'link'));
      expect((await runCli(['new', 'link'], { folder })).exitCode).toBe(0);
      expect(lstatSync(join(folder, 'link')).isSymbolicLink()).toBe(true);
      expect(existsSync(join(folder, 'real', 'book.yaml'))).toBe(true);
    }));

  it.each([
    ['taken', '“taken” is a file; nothing was written.'],
    ['taken/mine', '“taken/mine” could not be written: a part of that path is a file.'],
    ['taken/deeper/mine', '“taken/deeper/mine” could not be written: a part of that path is a file.'],
  ])('says in words that a file is in the way: %s', (given, message) =>
    inFreshFolder(async (folder) => {
      writeFileSync(join(folder, 'taken'), 'mine');
      const { exitCode, err } = await runCli(['new', given], { folder });
      expect(exitCode).toBe(1);
      expect(err).toContain(message);
      expect(readdirSync(folder)).toEqual(['taken']);
    }),
  );
});
