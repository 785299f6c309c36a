import { mendName } from '../book/problems/nearest.ts';
import { type Problem, problem } from '../book/problems/problem.ts';
import type { ColumnDefinition, SheetDefinition } from './definition.ts';

/** Names in sheet files outside formulas: keys, owners, and the sheets and columns that columns point to. */
export function checkNames(definitions: readonly SheetDefinition[]): Problem[] {
  const sheets = new Map(definitions.map((definition) => [definition.sheet, definition]));
  return definitions.flatMap((definition, at) => [
    ...twinTitle(definition, definitions.slice(0, at)),
    ...twinTable(definition, definitions.slice(0, at)),
    ...checkKeys(definition, sheets),
    ...definition.columns.flatMap((column) => checkColumn(column, definition, sheets)),
  ]);
}

type Sheets = ReadonlyMap<string, SheetDefinition>;

/** Spreadsheet programs hold sheet titles apart without regard to capitals. */
function twinTitle(definition: SheetDefinition, earlier: readonly SheetDefinition[]): Problem[] {
  const twin = earlier.find((each) => each.title.toLowerCase() === definition.title.toLowerCase());
  if (twin === undefined) return [];
  const message = `title: the sheets ${twin.sheet} and ${definition.sheet} are both called “${definition.title}”.`;
  return [
    problem('key-twice', definition.at, message, {
      found: definition.title,
      accepted: 'a title of its own, capitals aside',
      mend: 'Give one of the two another title.',
    }),
  ];
}

/** A table is read by the columns of one sheet; another sheet repeats that sheet's rows. */
function twinTable(definition: SheetDefinition, earlier: readonly SheetDefinition[]): Problem[] {
  const { rows } = definition;
  if (!('table' in rows)) return [];
  const twin = earlier.find((each) => 'table' in each.rows && each.rows.table === rows.table);
  if (twin === undefined) return [];
  return [
    problem(
      'key-twice',
      definition.at,
      `rows: the table ${rows.table} is shown by the sheet ${twin.sheet} already.`,
      {
        found: rows.table,
        accepted: `{ each: ${twin.sheet} } for a row beside each of its rows`,
        mend: `Write rows: { each: ${twin.sheet} }, or “extends: ${twin.sheet}” to add columns to it.`,
      },
    ),
  ];
}

function checkKeys(definition: SheetDefinition, sheets: Sheets): Problem[] {
  const { rows, key, belongs, at } = definition;
  const problems: Problem[] = [];
  const own = definition.columns.map((column) => column.id);
  const wanted = 'each' in rows ? 1 : 'cross' in rows ? 2 : undefined;
  if (wanted !== undefined && key.length !== wanted) {
    problems.push(
      problem(
        'sheet-shape',
        at,
        `The rows of ${definition.sheet} need ${wanted === 1 ? 'one key column' : 'two key columns'}, and key names ${key.length === 0 ? 'none' : key.length}.`,
        {
          found: key.join(', '),
          accepted: wanted === 1 ? 'key: product' : 'key: [product, channel]',
          mend: 'Write under key which column of this sheet names its rows.',
        },
      ),
    );
  }
  const named = [
    ...key.map((id) => ({ word: 'key', id })),
    ...(belongs === undefined ? [] : [{ word: 'belongs', id: belongs.column }]),
    ...('as' in rows ? [{ word: 'as', id: rows.as }] : []),
    ...('keep' in rows && rows.keep !== undefined ? [{ word: 'keep', id: rows.keep }] : []),
  ];
  for (const { word, id } of named) {
    if (own.includes(id)) continue;
    problems.push(
      problem('column-name-unknown', at, `${word}: the sheet ${definition.sheet} has no column “${id}”.`, {
        found: id,
        accepted: own.join(', '),
        mend: mendName(id, own),
      }),
    );
  }
  const sources =
    'each' in rows
      ? [rows.each]
      : 'cross' in rows
        ? [rows.cross, ...(typeof rows.with === 'string' ? [rows.with] : [])]
        : [];
  for (const source of sources) problems.push(...mustName(source, 'rows', sheets, at));
  for (const owner of belongs?.to ?? []) problems.push(...mustName(owner, 'belongs', sheets, at));
  const { stands_for, only_with } = definition;
  if (stands_for !== undefined) problems.push(...mustName(stands_for, 'stands_for', sheets, at));
  const withs: (string | undefined)[] = definition.columns.map((column) => column.only_with);
  if ('list' in rows)
    for (const entry of rows.list) if (Object.hasOwn(entry, 'only_with')) withs.push(entry.only_with);
  for (const other of [only_with, ...withs]) {
    if (other === undefined || sheets.has(other)) continue;
    problems.push(
      problem('sheet-unknown', at, `only_with: there is no sheet “${other}”.`, {
        found: other,
        accepted: [...sheets.keys()].join(', '),
        mend: mendName(other, [...sheets.keys()]),
      }),
    );
  }
  return problems;
}

function checkColumn(column: ColumnDefinition, definition: SheetDefinition, sheets: Sheets): Problem[] {
  const at = { ...column.at, column: column.heading };
  const problems: Problem[] = [];
  if (column.of !== undefined) problems.push(...mustName(column.of, 'of', sheets, at));
  if (column.each !== undefined) problems.push(...mustName(column.each, 'each', sheets, at));
  const own = definition.columns.map((each) => each.id);
  const named = [
    ...(column.measured_by === undefined ? [] : [{ word: 'measured_by', id: column.measured_by }]),
    ...(column.blank_from === undefined ? [] : [{ word: 'blank_from', id: column.blank_from }]),
    ...(column.joins ?? []).map((id) => ({ word: 'joins', id })),
  ];
  for (const { word, id } of named) {
    if (own.includes(id)) continue;
    problems.push(
      problem('column-name-unknown', at, `${word}: the sheet ${definition.sheet} has no column “${id}”.`, {
        found: id,
        accepted: own.join(', '),
        mend: mendName(id, own),
      }),
    );
  }
  return problems;
}

/** The name of a sheet whose rows are each known by one name. */
function mustName(name: string, word: string, sheets: Sheets, at: Problem['where']): Problem[] {
  const known = [...sheets.values()].filter((sheet) => sheet.key.length === 1).map((sheet) => sheet.sheet);
  if (known.includes(name)) return [];
  const message = sheets.has(name)
    ? `${word}: the rows of the sheet “${name}” are not known by one name.`
    : `${word}: there is no sheet “${name}”.`;
  return [
    problem('sheet-unknown', at, message, {
      found: name,
      accepted: known.join(', '),
      mend: mendName(name, known),
    }),
  ];
}
