import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { parseCsv } from '../../engine/book/files/csvFile.ts';
import { cordFunctions } from '../../engine/cord/index.ts';

/** What a family of weaves that comes with Sennit has to have besides its row. */
const top = join(import.meta.dirname, '../..');
const textOf = (file: string): string => readFileSync(join(top, file), 'utf8');

type Row = Readonly<Record<string, string>>;

function rowsOf(file: string): Row[] {
  const { headings, rows } = parseCsv(file, textOf(file));
  return rows.map(({ cells }) => Object.fromEntries(headings.map(({ id }, at) => [id, cells[at] ?? ''])));
}

/** Rows of the table of families in docs/cord.md: the words between its ticks and the page that it leads to. */
const told = [
  ...textOf('docs/cord.md').matchAll(
    /^\| [^|]+ \| (?:`([^`]+)`)? ?\| ([^|]+) \| \[[^\]]+\]\(cord\/([\w-]+)\.md\) \|$/gm,
  ),
].map(([, family = '', functions = '', page = '']) => ({ family, functions, page }));

const families = rowsOf('templates/families.csv');
const weaves = rowsOf('templates/weaves.csv');
const functionNames = new Set(cordFunctions.map(({ name }) => name));

/** What is missing of a family, in words; nothing where it is whole. One without a formula is measured only. */
function missingOf({ family = '', take_up = '', working = '' }: Row): string[] {
  const missing: string[] = [];
  const demand = (is: boolean, what: string): void => {
    if (!is) missing.push(`family ${family}: ${what}`);
  };
  demand(working !== '', 'templates/families.csv, `working`: how its cord is reckoned, in words');
  if (take_up === '') return missing;
  demand(
    weaves.some((weave) => weave.family === family),
    'templates/weaves.csv: a weave of it',
  );
  const row = told.find((each) => each.family === family);
  demand(
    row !== undefined,
    'docs/cord.md: a row of the table “Weaves, family by family”, with a page docs/cord/<name>.md',
  );
  if (row === undefined) return missing;
  const page = `docs/cord/${row.page}.md`;
  const figure = `tests/cord/drawn/figures/${row.page}.ts`;
  demand(existsSync(join(top, page)), `${page}: its page`);
  demand(existsSync(join(top, figure)), `${figure}: the drawing of its figure`);
  const written = existsSync(join(top, page)) ? textOf(page) : '';
  demand(
    written.includes(`](figures/${row.page}.svg)`),
    `${page}: its figure, ![…](figures/${row.page}.svg)`,
  );
  for (const [name] of take_up.matchAll(/[A-Z]+(?:_[A-Z]+)+/g)) {
    if (!functionNames.has(name)) continue;
    demand(row.functions.includes(`\`${name}(`), `docs/cord.md: ${name} in its row`);
    demand(written.includes(`**\`${name}(`), `${page}: what ${name} is`);
  }
  for (const says of ['Measured', 'Estimated'])
    demand(written.includes(`**${says}:**`), `${page}: what of it is ${says.toLowerCase()}`);
  return missing;
}

describe('families of weaves', () => {
  it('have a weave, a row in docs/cord.md, a page and a drawn figure', () => {
    expect(families.length).toBeGreaterThan(10);
    expect(families.flatMap(missingOf)).toEqual([]);
  });

  it('what a new one lacks is named', () => {
    const river = { family: 'river', take_up: 'SQRT(core + pitch_ratio)', working: '' };
    expect(missingOf(river)).toEqual([
      'family river: templates/families.csv, `working`: how its cord is reckoned, in words',
      'family river: templates/weaves.csv: a weave of it',
      'family river: docs/cord.md: a row of the table “Weaves, family by family”, with a page docs/cord/<name>.md',
    ]);
  });

  it('docs/cord.md tells of none that is gone', () => {
    const known = new Set(families.map(({ family }) => family));
    expect(told.length).toBeGreaterThan(10);
    expect(told.filter(({ family }) => family !== '' && !known.has(family))).toEqual([]);
  });

  it('their weaves say no figure that their formulas do not use', () => {
    const figures = ['pitch_ratio', 'layered_pitch_ratio', 'angle', 'knots_per_turn', 'passes_over'];
    const idle = weaves.flatMap((weave) => {
      const family = families.find((each) => each.family === weave.family);
      const formulas = [family?.take_up, family?.width, family?.thickness].join(' ');
      return figures
        .filter((figure) => (weave[figure] ?? '') !== '')
        .filter((figure) => !formulas.includes(figure.replace('layered_', '')))
        .map((figure) => `${weave.weave}: ${figure}`);
    });
    expect(idle).toEqual([]);
  });
});
