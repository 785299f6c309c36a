import * as v from 'valibot';
import { type NumberKind, numberKinds } from '../book/kinds.ts';
import { mendName } from '../book/nearest.ts';
import { type Place, type Problem, problem } from '../book/problem.ts';
import { parseYaml } from '../book/yamlFile.ts';
import { checkNames } from './checkNames.ts';
import { shapeProblem } from './shapeProblem.ts';

const name = v.pipe(v.string(), v.regex(/^[a-z][a-z0-9_]*$/, 'a lowercase name such as bench_hours'));
const scalarText = v.pipe(v.union([v.string(), v.number(), v.boolean()]), v.transform(String));
const names = v.pipe(
  v.union([name, v.array(name)]),
  v.transform((given) => (typeof given === 'string' ? [given] : given)),
);

const columnShape = v.strictObject({
  id: name,
  heading: v.string(),
  unit: v.optional(v.string()),
  kind: v.optional(v.picklist(numberKinds)),
  role: v.optional(v.picklist(['input', 'override', 'computed', 'check'])),
  note: v.optional(v.string(), ''),
  formula: v.optional(scalarText),
  each: v.optional(name),
  from: v.optional(name),
  column: v.optional(name),
  of: v.optional(name),
  choices: v.optional(v.array(scalarText)),
  required: v.optional(v.boolean(), false),
  blank: v.optional(scalarText),
  blank_metric: v.optional(scalarText),
  blank_means: v.optional(name),
  measured_by: v.optional(name),
  min: v.optional(v.number()),
  above: v.optional(v.number()),
  max: v.optional(v.number()),
  below: v.optional(v.number()),
  bar: v.optional(v.boolean(), false),
  total: v.optional(v.literal('SUM')),
  severity: v.optional(v.picklist(['error', 'watch']), 'error'),
  says: v.optional(v.string()),
  mend: v.optional(v.string(), ''),
});

const rowsShape = v.union([
  v.strictObject({ form: v.string() }),
  v.strictObject({ table: name, shipped: v.optional(v.string()) }),
  v.strictObject({ each: name }),
  v.strictObject({ cross: name, with: name }),
  v.strictObject({ cross: name, with: v.array(v.string()), as: name, keep: v.optional(name) }),
  v.strictObject({ list: v.array(v.record(v.string(), scalarText)) }),
]);

const sheetShape = v.strictObject({
  sheet: name,
  title: v.pipe(
    v.string(),
    v.regex(/^[^:\\/?*[\]']{1,31}$/, 'up to 31 characters without : \\ / ? * [ ] or apostrophe'),
  ),
  answers: v.string(),
  place: v.optional(v.number(), 500),
  rows: rowsShape,
  key: v.optional(names, []),
  belongs: v.optional(v.strictObject({ column: name, to: names })),
  columns: v.pipe(v.array(columnShape), v.minLength(1)),
});

const extensionShape = v.strictObject({
  extends: name,
  columns: v.pipe(v.array(columnShape), v.minLength(1)),
});

/** Where the rows of a sheet come from; see "Sheet files" in DEVELOPERS.md. */
export type RowSource =
  | { readonly form: string }
  | { readonly table: string; readonly shipped?: string | undefined }
  | { readonly each: string }
  | { readonly cross: string; readonly with: string }
  | {
      readonly cross: string;
      readonly with: readonly string[];
      readonly as: string;
      readonly keep?: string | undefined;
    }
  | { readonly list: readonly Readonly<Record<string, string>>[] };

/** A column as its sheet file defines it, with the place of the definition. */
export interface ColumnDefinition {
  readonly id: string;
  readonly heading: string;
  readonly unit?: string | undefined;
  readonly kind?: NumberKind | undefined;
  readonly role?: 'input' | 'override' | 'computed' | 'check' | undefined;
  readonly note: string;
  readonly formula?: string | undefined;
  readonly each?: string | undefined;
  readonly from?: string | undefined;
  readonly column?: string | undefined;
  readonly of?: string | undefined;
  readonly choices?: readonly string[] | undefined;
  readonly required: boolean;
  readonly blank?: string | undefined;
  readonly blank_metric?: string | undefined;
  readonly blank_means?: string | undefined;
  readonly measured_by?: string | undefined;
  readonly min?: number | undefined;
  readonly above?: number | undefined;
  readonly max?: number | undefined;
  readonly below?: number | undefined;
  readonly bar: boolean;
  readonly total?: 'SUM' | undefined;
  readonly severity: 'error' | 'watch';
  readonly says?: string | undefined;
  readonly mend: string;
  readonly at: Place;
}

/** A sheet as its file defines it. */
export interface SheetDefinition {
  readonly sheet: string;
  readonly title: string;
  readonly answers: string;
  readonly place: number;
  readonly rows: RowSource;
  readonly key: readonly string[];
  readonly belongs?: { readonly column: string; readonly to: readonly string[] };
  readonly columns: readonly ColumnDefinition[];
  readonly at: Place;
}

/**
 * Reads sheet files: whole sheets, and files that add columns to one (`extends: costs`).
 *
 * @param files YAML texts by path; shipped sheets first, then the book's own
 * @returns sheets in workbook order, and what is wrong with the files
 */
export function readDefinitions(files: ReadonlyMap<string, string>): {
  definitions: SheetDefinition[];
  problems: Problem[];
} {
  const problems: Problem[] = [];
  const sheets = new Map<string, SheetDefinition>();
  const extensions: { name: string; columns: ColumnDefinition[]; at: Place }[] = [];
  for (const [file, source] of files) {
    const yaml = parseYaml(file, source);
    problems.push(...yaml.problems);
    if (yaml.problems.length > 0) continue;
    const extending = yaml.keys.includes('extends');
    const parsed = v.safeParse(extending ? extensionShape : sheetShape, yaml.data);
    if (!parsed.success) {
      const words = {
        file: Object.keys((extending ? extensionShape : sheetShape).entries),
        column: Object.keys(columnShape.entries),
      };
      problems.push(...parsed.issues.map((issue) => shapeProblem(issue, yaml, words)));
      continue;
    }
    const columns = parsed.output.columns.map((column, index) => ({
      ...column,
      at: yaml.place('columns', index),
    }));
    const at = yaml.place('sheet');
    if ('extends' in parsed.output) {
      extensions.push({ name: parsed.output.extends, columns, at: yaml.place('extends') });
    } else if (sheets.has(parsed.output.sheet)) {
      problems.push(
        problem('key-twice', yaml.place('sheet'), `There is a sheet “${parsed.output.sheet}” already.`, {
          found: parsed.output.sheet,
          accepted: 'a name of its own',
          mend: `Rename it, or write “extends: ${parsed.output.sheet}” to add columns to that one.`,
        }),
      );
    } else {
      const { belongs, ...rest } = parsed.output;
      sheets.set(rest.sheet, { ...rest, columns, at, ...(belongs === undefined ? {} : { belongs }) });
    }
  }
  for (const { name: sheet, columns, at } of extensions) {
    const base = sheets.get(sheet);
    if (base === undefined) {
      problems.push(
        problem('sheet-unknown', at, `There is no sheet “${sheet}” to add columns to.`, {
          found: sheet,
          accepted: [...sheets.keys()].join(', '),
          mend: mendName(sheet, [...sheets.keys()]),
        }),
      );
    } else {
      sheets.set(sheet, { ...base, columns: [...base.columns, ...columns] });
    }
  }
  const definitions = [...sheets.values()].sort((one, other) => one.place - other.place);
  for (const definition of definitions) problems.push(...twinColumns(definition));
  problems.push(...checkNames(definitions));
  return { definitions, problems };
}

function twinColumns(definition: SheetDefinition): Problem[] {
  const seen = new Set<string>();
  return definition.columns.flatMap((column) => {
    if (!seen.has(column.id)) {
      seen.add(column.id);
      return [];
    }
    return [
      problem(
        'column-twice',
        { ...column.at, column: column.heading },
        `The sheet ${definition.sheet} has a column “${column.id}” already.`,
        {
          found: column.id,
          accepted: 'each column name once in a sheet',
          mend: 'Rename it.',
        },
      ),
    ];
  });
}
