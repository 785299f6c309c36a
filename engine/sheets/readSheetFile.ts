import * as v from 'valibot';
import { parseYaml } from '../book/files/yamlFile.ts';
import { numberKinds } from '../book/measures/kinds.ts';
import type { Problem } from '../book/problems/problem.ts';
import type { SheetDefinition, SheetExtension } from './definition.ts';
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
  uses: v.optional(v.array(name)),
  required: v.optional(v.boolean(), false),
  blank: v.optional(scalarText),
  blank_metric: v.optional(scalarText),
  measured_by: v.optional(name),
  blank_from: v.optional(name),
  joins: v.optional(v.array(name)),
  only_with: v.optional(name),
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
  v.strictObject({ table: name }),
  v.strictObject({ each: name }),
  v.strictObject({ cross: name, with: name, keep: v.optional(name) }),
  v.strictObject({ cross: name, with: v.array(v.string()), as: name, keep: v.optional(name) }),
  v.strictObject({ list: v.array(v.record(v.string(), scalarText)) }),
  v.strictObject({ made: name, fixed: v.optional(v.array(name)) }),
]);

const sheetShape = v.strictObject({
  sheet: name,
  title: v.pipe(
    v.string(),
    v.regex(
      /^(?!history$)[^:\\/?*[\]']{1,31}$/i,
      'up to 31 characters without : \\ / ? * [ ] or apostrophe, and not History',
    ),
  ),
  answers: v.string(),
  place: v.optional(v.number(), 500),
  rows: rowsShape,
  key: v.optional(names, []),
  belongs: v.optional(v.strictObject({ column: name, to: names })),
  each_size: v.optional(v.boolean()),
  only_with: v.optional(name),
  only_with_rows: v.optional(v.boolean()),
  stands_for: v.optional(name),
  repeats: v.optional(v.boolean()),
  apart: v.optional(v.boolean()),
  columns: v.pipe(v.array(columnShape), v.minLength(1)),
});

const extensionShape = v.strictObject({
  extends: name,
  columns: v.pipe(v.array(columnShape), v.minLength(1)),
});

/** Every word that a sheet file, one of its columns, or its `rows` may have. */
export const sheetFileWords: {
  readonly file: readonly string[];
  readonly column: readonly string[];
  readonly rows: readonly (readonly string[])[];
} = Object.freeze({
  file: [...new Set([...Object.keys(sheetShape.entries), ...Object.keys(extensionShape.entries)])],
  column: Object.keys(columnShape.entries),
  rows: rowsShape.options.map((each) => Object.keys(each.entries)),
});

/** What one sheet file holds: a sheet, or columns for one; neither where its shape is wrong. */
export interface SheetFile {
  readonly sheet?: SheetDefinition;
  readonly extension?: SheetExtension;
  readonly problems: readonly Problem[];
}

/** Reads one sheet file. The result is plain data, so that shipped sheets can be read once at build time. */
export function readSheetFile(file: string, source: string): SheetFile {
  const yaml = parseYaml(file, source);
  if (yaml.problems.length > 0) return { problems: yaml.problems };
  const shape = yaml.keys.includes('extends') ? extensionShape : sheetShape;
  // To the schema a list has names too, 0, 1 and so on; a maker is told that it is no sheet.
  const parsed = v.safeParse(shape, yaml.isMap ? yaml.data : 'no sheet');
  if (!parsed.success) {
    const known = { file: Object.keys(shape.entries), column: sheetFileWords.column };
    return { problems: parsed.issues.map((issue) => shapeProblem(issue, yaml, known)) };
  }
  const columns = parsed.output.columns.map((column, index) => ({
    ...column,
    at: yaml.place('columns', index),
  }));
  if ('extends' in parsed.output) {
    return {
      extension: { extends: parsed.output.extends, columns, at: yaml.place('extends') },
      problems: [],
    };
  }
  const { belongs, ...rest } = parsed.output;
  const sheet = { ...rest, columns, at: yaml.place('sheet'), ...(belongs === undefined ? {} : { belongs }) };
  return { sheet, problems: [] };
}
