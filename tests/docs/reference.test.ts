import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { expectGolden, refreshing } from '../support/golden.ts';
import { inFreshFolder, runCli } from '../support/runCli.ts';
import { commandsReference } from './reference/commands.ts';
import { jsonReference } from './reference/json.ts';
import { type PrintedType, printedTypes } from './reference/printedTypes.ts';
import { functionsReference, sheetWordsReference } from './reference/sheetLanguage.ts';
import { tablesReference } from './reference/tables.ts';
import { fieldsWithUnits, unitOf } from './reference/units.ts';
import { ladder, pocket } from './reference/worked.ts';

/**
 * What stands in pages of docs/ between `<!-- made: name -->` and `<!-- made end -->` is made from the
 * sources. `npm run golden:refresh` makes it anew.
 */
const folder = join(import.meta.dirname, '../../docs');

const parts: readonly (readonly [page: string, part: string, make: () => string])[] = [
  ['reference/tables.md', 'tables', tablesReference],
  ['reference/sheet-language.md', 'words', sheetWordsReference],
  ['reference/sheet-language.md', 'functions', functionsReference],
  ['reference/commands.md', 'commands', commandsReference],
  ['reference/json.md', 'answers', jsonReference],
  ['concepts/margin.md', 'ladder', ladder],
  ['concepts/channels.md', 'pocket', pocket],
];

describe('what is made from the sources', () => {
  it.each(parts)('%s has its %s as the sources do', (page, part, make) => {
    const path = join(folder, page);
    const text = readFileSync(path, 'utf8');
    const start = `<!-- made: ${part} -->\n`;
    const from = text.indexOf(start) + start.length;
    const to = text.indexOf('<!-- made end -->', from);
    expect(from, `${page} has no place for ${part}`).toBeGreaterThanOrEqual(start.length);
    const now = `\n${make()}\n\n`;
    if (refreshing) writeFileSync(path, text.slice(0, from) + now + text.slice(to));
    else expectGolden(text.slice(from, to), now, `docs/${page}, ${part}`);
  });

  it('a field that is new has no unit until somebody says one', () => {
    expect(unitOf('PriceList', 'breaksFrom')).toBe('pieces');
    expect(unitOf('PriceList', 'newCordMm')).toBe('mm');
    expect(() => unitOf('PriceList', 'newFigure')).toThrow('PriceList.newFigure has no unit');
  });

  it('no unit is told of a field that is gone', () => {
    const { commands, types } = printedTypes();
    const fields = new Set([
      ...[...types.values()].flatMap(({ name, fields: of }) => of.map(({ path }) => `${name}.${path}`)),
      ...[...commands].flatMap(([command, given]) =>
        given.flatMap(({ fields: of }) => of.map(({ path }) => `${command}.${path}`)),
      ),
    ]);
    expect(fieldsWithUnits.filter((each) => !fields.has(each))).toEqual([]);
  });
});

/** Fields of an answer that the reference does not know, and fields of the reference that the answer lacks. */
function astray(value: unknown, type: PrintedType, before = ''): string[] {
  if (Array.isArray(value)) return value.flatMap((each) => astray(each, type, before));
  if (typeof value !== 'object' || value === null) return [];
  const { types } = printedTypes();
  const here = type.fields.filter(
    ({ path }) => path.startsWith(before) && !path.slice(before.length).includes('.'),
  );
  const lacking = here
    .filter(({ path, optional }) => !optional && !(path.slice(before.length) in value))
    .map(({ path }) => `${type.name}.${path} is not printed`);
  const found = Object.entries(value).flatMap(([key, inner]) => {
    const field = here.find(({ path }) => path === before + key);
    if (field === undefined) return [`${type.name}.${before}${key} is not told`];
    const named = field.names.flatMap((name) => types.get(name) ?? []);
    if (named.length === 1 && named[0] !== undefined)
      return field.type.startsWith('object of') ? [] : astray(inner, named[0]);
    const deeper = `${field.path}${'[]'.repeat((field.type.match(/list/g) ?? []).length)}.`;
    return type.fields.some(({ path }) => path.startsWith(deeper)) ? astray(inner, type, deeper) : [];
  });
  return [...new Set([...lacking, ...found])];
}

/** What is asked of the starter book. */
const asked: readonly (readonly [command: string, ...args: string[]])[] = [
  ['breakeven', 'my-book'],
  ['cards', 'my-book', 'lead long', 'collar medium'],
  ['check', 'my-book'],
  ['cord', '--measure', '7 in', '--colours', 'over=red, under=black'],
  ['cut', 'my-book'],
  ['fit', 'my-book'],
  ['mix', 'my-book'],
  ['month', 'my-book', '2026-10'],
  ['price', 'my-book'],
  ['pricelist', 'my-book'],
  ['risk', 'my-book', '--draws', '500'],
  ['sensitivity', 'my-book'],
  ['sensitivity', 'my-book', '--across', 'wage = 18..26 by 4'],
  ['solve', 'my-book', '--vary', 'wage', '--until', 'margin of fob short at stall = 40 %'],
  ['stock', 'my-book'],
  ['variance', 'my-book'],
  ['whatif', 'my-book'],
  ['workbook', 'my-book'],
  ['takein', 'my-book.xlsx', '--dry-run'],
];

/** Names of all fields in what a command prints, however deep. */
function namesPrinted(command: string): Set<string> {
  const { commands, types } = printedTypes();
  const names = new Set<string>();
  const visited = new Set<string>();
  const visit = ({ fields }: PrintedType): void => {
    for (const field of fields) {
      for (const part of field.path.split('.')) names.add(part.replaceAll('[]', ''));
      for (const name of field.names) {
        const type = types.get(name);
        if (type === undefined || visited.has(name)) continue;
        visited.add(name);
        visit(type);
      }
    }
  };
  for (const type of commands.get(command) ?? []) {
    visit(type);
    const whole = types.get(type.name);
    if (whole !== undefined) visit(whole);
  }
  return names;
}

describe('help tells of JSON', () => {
  it.each([...printedTypes().commands.keys()].filter((command) => command !== 'swept'))(
    '%s: no field that is not printed',
    async (command) => {
      const { out } = await runCli(['help', command]);
      const told = /^In JSON[\s\S]*?(?=\n\n|\nWrites: )/m.exec(out)?.[0] ?? '';
      const fields = told.match(/\b[a-z]+(?:[A-Z][a-z0-9]*)+\b/g) ?? [];
      const printed = namesPrinted(command);
      const unknown = fields.filter((field) => !printed.has(field));
      if (unknown.length === 0) return;
      // Totals of stock have the names that the columns of its sheet have.
      await inFreshFolder(async (folder) => {
        await runCli(['new', 'my-book'], { folder });
        const args = asked.find(([name]) => name === command) ?? [];
        const { out: answer } = await runCli([...args, '--json'], { folder });
        expect(unknown.filter((field) => !answer.includes(`"${field}":`))).toEqual([]);
      });
    },
  );
});

describe('what --json really prints is what the reference tells', () => {
  it('asks every command that can print it', () => {
    const { commands } = printedTypes();
    const names = new Set(asked.map(([command]) => command));
    // `new` is asked below, `report` gathers the answers of others, and `swept` is what three commands share.
    expect([...commands.keys()].filter((command) => !names.has(command)).sort()).toEqual([
      'new',
      'report',
      'swept',
    ]);
  });

  it.each([['new', 'another-book'] as const, ...asked].map((args) => ({ args, title: args.join(' ') })))(
    '$title',
    ({ args }) =>
      inFreshFolder(async (folder) => {
        await runCli(['new', 'my-book'], { folder });
        if (args[0] === 'takein') await runCli(['workbook', 'my-book'], { folder });
        const { out, err } = await runCli([...args, '--json'], { folder });
        expect(out, err).not.toBe('');
        const types = printedTypes().commands.get(args[0]) ?? [];
        const faults = types.map((type) => astray(JSON.parse(out), type));
        // A command that has several answers gave one of them.
        const nearest = faults.sort((one, other) => one.length - other.length)[0];
        expect(nearest).toEqual([]);
      }),
  );
});
