import { execFileSync } from 'node:child_process';
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { dirname, join, relative } from 'node:path';
import { describe, expect, it } from 'vitest';
import { programOf } from '../../cli/program.ts';
import { anchor } from './reference/markdown.ts';

const top = join(import.meta.dirname, '../..');
const docs = readdirSync(join(top, 'docs'), { recursive: true, encoding: 'utf8' })
  .filter((name) => name.endsWith('.md'))
  .map((name) => `docs/${name}`)
  .sort();
const pages = ['README.md', 'DEVELOPERS.md', ...docs];
const textOf = (page: string): string => readFileSync(join(top, page), 'utf8');

/** A page without what stands between fences. */
const prose = (page: string): string => textOf(page).replace(/^```[\s\S]*?^```$/gm, '');

/** Links of a page within the project. */
const linksOf = (page: string): string[] =>
  [...prose(page).matchAll(/\]\(([^)\s]+)\)/g)].map(([, to = '']) => to).filter((to) => !/^[a-z]+:/.test(to));

/** A link as `page#anchor` from the top. */
function target(page: string, to: string): { file: string; at: string } {
  const [path = '', at = ''] = to.split('#');
  return { file: path === '' ? page : relative(top, join(top, dirname(page), path)), at };
}

const anchorsOf = (page: string): Set<string> =>
  new Set(
    [...prose(page).matchAll(/^#+ (.+)$/gm)].map(([, heading = '']) => anchor(heading.replaceAll('`', ''))),
  );

describe('README.md', () => {
  it('names every command, in the groups of the program', () => {
    const program = programOf(
      { out: () => {}, err: () => {}, env: {}, now: () => new Date(0), folder: '.' },
      { exitCode: 0 },
    );
    const told = [...textOf('README.md').matchAll(/^\| `sennit (\w+)/gm)].map(([, name]) => name);
    expect(told).toEqual(program.commands.map((command) => command.name()));
  });

  it('names every table of a book, or leads to where it stands', () => {
    expect(textOf('README.md')).toContain('](docs/reference/tables.md)');
    const named = [...textOf('README.md').matchAll(/`(\w+)\.csv`/g)].map(([, name = '']) => `${name}.csv`);
    for (const name of named) expect(textOf('docs/reference/tables.md'), name).toContain(`\n## ${name}\n`);
  });
});

describe('pages', () => {
  it.each(pages)('%s leads to pages, figures and headings that are there', (page) => {
    const astray = linksOf(page).filter((to) => {
      const { file, at } = target(page, to);
      return !existsSync(join(top, file)) || (at !== '' && !anchorsOf(file).has(`#${at}`));
    });
    expect(astray).toEqual([]);
  });

  it('each stands in the index', () => {
    const listed = new Set(linksOf('docs/README.md').map((to) => target('docs/README.md', to).file));
    expect(docs.filter((page) => page !== 'docs/README.md' && !listed.has(page))).toEqual([]);
  });

  it('are no longer than one sitting, but for those that are there to look up', () => {
    const long = docs.filter(
      (page) => textOf(page).split('\n').length > 470 && !page.startsWith('docs/reference/'),
    );
    expect(long).toEqual([]);
  });

  it('show how to be careful wherever the work is described', () => {
    const melts = [
      'docs/tutorial.md',
      'docs/concepts/cord.md',
      'docs/sizing.md',
      'docs/cutting.md',
      'docs/weights-and-ends.md',
      'docs/cord/ends.md',
    ];
    for (const page of melts)
      expect(textOf(page), page).toMatch(/[Ff]lame and melt: work with air and water near/);
    const necks = ['README.md', 'docs/sizing.md', 'docs/weights-and-ends.md', 'docs/cord/ends.md'];
    for (const page of necks)
      expect(textOf(page), page).toMatch(/loop\s+round a neck needs a breakaway fitting/i);
    const loads = [
      'README.md',
      'docs/believe.md',
      'docs/tutorial.md',
      'docs/concepts/cord.md',
      'docs/weights-and-ends.md',
      'docs/cord/ends.md',
    ];
    for (const page of loads) expect(textOf(page), page).toMatch(/climbing|lifting|nothing may hang/);
    for (const page of ['README.md', 'docs/tutorial.md'])
      expect(textOf(page).replace(/\s+/g, ' '), page).toContain('with children under three');
    const law = [
      'README.md',
      'docs/tutorial.md',
      'docs/month.md',
      'docs/stock.md',
      'docs/concepts/channels.md',
      'docs/concepts/stock.md',
      'docs/concepts/month.md',
      'docs/reference/tables.md',
    ];
    for (const page of law) expect(textOf(page).replace(/\s+/g, ' '), page).toMatch(/licensed professional/);
  });
});

describe('the package', () => {
  interface Packed {
    readonly files: readonly { readonly path: string }[];
  }
  const told = execFileSync('npm', ['pack', '--dry-run', '--json', '--ignore-scripts'], {
    cwd: top,
    encoding: 'utf8',
    stdio: ['ignore', 'pipe', 'ignore'],
  });
  const packed = (JSON.parse(told) as Packed[]).flatMap(({ files }) => files.map(({ path }) => path));

  it('has every page', () => {
    expect(pages.filter((page) => !packed.includes(page))).toEqual([]);
  });

  it('has whatever its pages lead to', () => {
    const astray = packed
      .filter((file) => file.endsWith('.md'))
      .flatMap((page) =>
        linksOf(page)
          .map((to) => target(page, to).file)
          .filter((file) => !packed.some((each) => each === file || each.startsWith(`${file}/`)))
          .map((file) => `${page} leads to ${file}`),
      );
    expect(astray).toEqual([]);
  });
});

describe('DEVELOPERS.md', () => {
  /** `cli/program.ts`, `engine/book`: words between ticks that begin with a folder of the project. */
  const paths = [
    ...prose('DEVELOPERS.md').matchAll(/`((?:engine|cli|page|tests|templates|docs|\.ci)\/[^`\s]*)`/g),
  ].map(([, path = '']) => path);

  it('names many places, and all of them are there', () => {
    expect(paths.length).toBeGreaterThan(40);
    const gone = paths.filter((path) => {
      const plain = path.replace(/<[^>]+>.*$/, '').replace(/\/$/, '');
      return (
        !existsSync(join(top, plain)) &&
        !existsSync(join(top, `${plain}.ts`)) &&
        !existsSync(join(top, `${plain}.test.ts`))
      );
    });
    expect(gone).toEqual([]);
  });

  it('has a row for every room of the engine', () => {
    const rooms = readdirSync(join(top, 'engine'), { withFileTypes: true }).filter((each) =>
      each.isDirectory(),
    );
    for (const { name } of rooms) expect(textOf('DEVELOPERS.md')).toContain(`\n| \`engine/${name}\` |`);
  });

  it('names commands of npm that are there', () => {
    const { scripts } = JSON.parse(textOf('package.json')) as { scripts: Record<string, string> };
    for (const [, name = ''] of textOf('DEVELOPERS.md').matchAll(/npm run (?:-s )?([\w:]+)/g))
      expect(Object.keys(scripts), name).toContain(name);
  });
});
