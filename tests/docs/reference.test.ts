import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { commandsReference } from './reference/commands.ts';
import { jsonReference } from './reference/json.ts';
import { printedTypes } from './reference/printedTypes.ts';
import { functionsReference, sheetWordsReference } from './reference/sheetLanguage.ts';
import { tablesReference } from './reference/tables.ts';
import { fieldsWithUnits, typesWithUnits } from './reference/units.ts';
import { ladder, pocket } from './reference/worked.ts';

/**
 * What stands in pages of docs/ between `<!-- made: name -->` and `<!-- made end -->` is made from the
 * sources. `npm run golden:refresh` makes it anew.
 */
const folder = join(import.meta.dirname, '../../docs');
const refreshing = process.env.SENNIT_REFRESH_GOLDEN === '1';

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
    else expect(text.slice(from, to)).toBe(now);
  });

  it('no unit is told of a field or type that is gone', () => {
    const { commands, types } = printedTypes();
    const fields = new Set([
      ...[...types.values()].flatMap(({ name, fields: of }) => of.map(({ path }) => `${name}.${path}`)),
      ...[...commands].flatMap(([command, given]) =>
        given.flatMap(({ fields: of }) => of.map(({ path }) => `${command}.${path}`)),
      ),
    ]);
    expect(fieldsWithUnits.filter((each) => !fields.has(each))).toEqual([]);
    expect(typesWithUnits.filter((each) => !types.has(each) && !commands.has(each))).toEqual([]);
  });
});
