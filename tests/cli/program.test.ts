import { existsSync, mkdirSync, readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { inFreshFolder, runCli } from '../support/runCli.ts';

const commands = ['new', 'check', 'price', 'cord', 'workbook'];

describe('the program', () => {
  it.each(commands)('%s has help with examples, and --json where it prints figures', async (command) => {
    const { exitCode, out } = await runCli([command, '--help']);
    expect(exitCode).toBe(0);
    expect(out).toContain(`$ sennit ${command}`);
    expect(out).toContain('--json');
  });

  it('writes the examples of a help as they are typed where npm starts it', async () => {
    const npm = { env: { npm_lifecycle_event: 'sennit' } };
    expect((await runCli(['price', '--help'], npm)).out).toContain(
      '$ npm run -s sennit -- price my-book --costs',
    );
    expect((await runCli(['--help'], npm)).out).not.toContain('$ sennit');
    expect((await runCli(['prise'], npm)).err).toContain('(npm run -s sennit -- --help shows what there is)');
  });

  it('suggests the command that was meant and exits with 2', async () => {
    const { exitCode, err } = await runCli(['prise', 'book']);
    expect(exitCode).toBe(2);
    expect(err).toContain('price');
  });

  it('exits with 2 for an unknown option or a missing argument', async () => {
    expect((await runCli(['price', 'book', '--chanel', 'x'])).exitCode).toBe(2);
    expect((await runCli(['price'])).exitCode).toBe(2);
  });

  it('says of too many words that names with blanks need quotation marks', async () => {
    const { exitCode, err } = await runCli(['price', 'my', 'book']);
    expect(exitCode).toBe(2);
    expect(err).toContain('A name with a blank in it stands in straight quotation marks, as in "my book".');
  });

  it('exits with 1 and names the folder where there is no book', async () => {
    const { exitCode, err } = await runCli(['price', 'nowhere']);
    expect(exitCode).toBe(1);
    expect(err).toContain('There is no folder “nowhere”');
    expect(err).toContain('sennit new nowhere');
  });
});

describe('an option that npm kept', () => {
  const npm = { npm_lifecycle_event: 'sennit', npm_config_channel: 'true', npm_config_json: 'true' };
  const starter = 'templates/books/starter';

  it('is told, with how to write the line, and nothing is done', async () => {
    const { exitCode, out, err } = await runCli(['price', starter, 'stall'], { env: npm });
    expect([exitCode, out]).toEqual([2, '']);
    expect(err).toContain('npm kept --channel for itself, as no -- stands before the command');
    expect(err).toContain('npm run -s sennit -- price … --channel …');
  });

  it('is none where it arrived, where the command has no such option, or where npm did not start it', async () => {
    for (const [args, env] of [
      [['price', starter, '--channel', 'stall'], npm],
      [['check', starter], npm],
      [['price', starter], { npm_config_channel: 'true' }],
    ] as const)
      expect((await runCli([...args], { env })).exitCode, args.join(' ')).toBe(0);
  });
});

describe('a new workshop', () => {
  it('makes, checks, prices and writes a starter book', () =>
    inFreshFolder(async (folder) => {
      expect((await runCli(['new', 'mine'], { folder })).exitCode).toBe(0);
      expect((await runCli(['check', 'mine'], { folder })).exitCode).toBe(0);
      expect((await runCli(['price', 'mine'], { folder })).exitCode).toBe(0);
      const written = await runCli(['workbook', 'mine', '--json'], { folder });
      expect(written.exitCode).toBe(0);
      expect(JSON.parse(written.out).file).toBe('mine.xlsx');
      expect(existsSync(join(folder, 'mine.xlsx'))).toBe(true);
    }));

  it('makes the metric starter too', () =>
    inFreshFolder(async (folder) => {
      await runCli(['new', 'mine', '--metric'], { folder });
      expect((await runCli(['check', 'mine'], { folder })).out).toContain('The book can be priced');
    }));

  it('never writes over a folder that holds something', () =>
    inFreshFolder(async (folder) => {
      mkdirSync(join(folder, 'mine'));
      writeFileSync(join(folder, 'mine', 'diary.txt'), 'mine');
      const { exitCode, err } = await runCli(['new', 'mine'], { folder });
      expect(exitCode).toBe(1);
      expect(err).toContain('nothing was written');
      expect(readdirSync(join(folder, 'mine'))).toEqual(['diary.txt']);
    }));

  it('never writes over a workbook without being told to', () =>
    inFreshFolder(async (folder) => {
      await runCli(['new', 'mine'], { folder });
      writeFileSync(join(folder, 'mine.xlsx'), 'edited by hand');
      const refused = await runCli(['workbook', 'mine'], { folder });
      expect(refused.exitCode).toBe(1);
      expect(refused.err).toContain('--replace');
      expect((await runCli(['workbook', 'mine', '--replace'], { folder })).exitCode).toBe(0);
    }));

  it('leaves no file behind where the book has errors', () =>
    inFreshFolder(async (folder) => {
      await runCli(['new', 'mine'], { folder });
      writeFileSync(join(folder, 'mine', 'products.csv'), 'product,weave,over_cord\nx,barr,nothing\n');
      const { exitCode, err } = await runCli(['workbook', 'mine'], { folder });
      expect(exitCode).toBe(1);
      expect(err).toContain('“barr” is not in weaves');
      expect(err).toContain('“nothing” is not in materials');
      expect(existsSync(join(folder, 'mine.xlsx'))).toBe(false);
    }));
});
