import Papa from 'papaparse';
import { parse } from 'yaml';
import type { NumberKind } from '../../../engine/book/measures/kinds.ts';
import type { FieldSchema, TableSchema } from '../../../engine/book/schema.ts';
import { settingNames } from '../../../engine/book/settings.ts';
import { bookSchema } from '../../../engine/sheets/bookSchema.ts';
import type { ColumnDefinition, SheetDefinition } from '../../../engine/sheets/definition.ts';
import { assemble } from '../../../engine/sheets/readDefinitions.ts';
import { demoBook, shipped } from '../../support/books.ts';
import { anchor, code, markdownTable } from './markdown.ts';

/** How a cell of a kind is written; the order is that of the page. */
const kinds: Readonly<Record<NumberKind, readonly [words: string, unit: string, written: string]>> = {
  key: ['name', '', 'text by which other tables call the row: up to 60 characters, without * ? ~ |'],
  ref: ['name of', '', 'a name from the table that is said'],
  text: ['text', '', 'anything'],
  choice: ['word', '', 'one of the words that are said'],
  yes_no: ['yes or no', '', 'yes, no'],
  formula: ['formula', '', 'text in the sheet language, with a decimal point and commas'],
  money: ['money', "the book's currency", '12.50; no sign of a currency'],
  percent: ['per cent', '%', '35 or 35 %'],
  number: ['number', '', '1.17'],
  count: ['count', '', 'a whole number'],
  length: ['length', "the book's length unit", '8; or with its own unit: 7 1/2 in, 5/32", 20 cm'],
  cord: ['cord', "the book's cord unit", '30; or with its own unit: 1,000 ft, 30 m'],
  fine: ['fine length', 'mm', '4; or with its own unit: 5/32"'],
  quantity: ['quantity', 'cord unit, or pieces', 'a length of cord or webbing, a count of fittings'],
  weight: ['weight', "the book's weight unit", '12; or with its own unit: 12 g, 1/2 oz, 1 lb 4 oz'],
  weight_per_unit: ['weight each', 'weight unit per cord unit or piece', '6.6 g/m, 3 oz/50 ft, 225 ft/lb'],
  force: ['force', 'lbf, or N', '550 lbf, 2.4 kN'],
  angle: ['angle', 'degrees', '40'],
  minutes: ['minutes', 'min', '2.5'],
  hours: ['hours', 'h', '96'],
  money_per_unit: ['money each', "the book's currency per cord unit or piece", '0.066'],
  date: ['day', '', '2026-10-31'],
};

/** Stand-ins of headings, in the words of any book. */
const anyBook: Readonly<Record<string, string>> = {
  currency: "the book's currency",
  length: 'the length unit',
  cord: 'the cord unit',
  weight: 'the weight unit',
  force: 'lbf or N',
};
const filled = (text: string): string =>
  text.replace(/\{(\w+)\}/g, (whole, word: string) => anyBook[word] ?? whole);
const sentence = (text: string): string => (text === '' || /[.!?]$/.test(text) ? text : `${text}.`);

const { definitions } = assemble(shipped.sheets);
const schema = bookSchema(definitions);

interface Defined {
  readonly column: ColumnDefinition;
  readonly sheet: SheetDefinition;
}

/** Columns by `table.column`, and figures of book.yaml by their name alone. */
const defined = new Map<string, Defined>(
  definitions.flatMap((sheet) =>
    sheet.columns.map((column): [string, Defined] => {
      const table = column.from ?? ('table' in sheet.rows ? sheet.rows.table : undefined);
      return [
        table === undefined ? `${sheet.sheet}.${column.id}` : `${table}.${column.column ?? column.id}`,
        { column, sheet },
      ];
    }),
  ),
);

function bounds({ min, above, max, below }: FieldSchema): string {
  return [
    above === undefined ? '' : `above ${above}`,
    min === undefined ? '' : `${min} or more`,
    below === undefined ? '' : `below ${below}`,
    max === undefined ? '' : `at most ${max}`,
  ]
    .filter((each) => each !== '')
    .join(', ');
}

function accepted(field: FieldSchema): string {
  const words = kinds[field.kind][0];
  if (field.of !== undefined) return `name of [${field.of}](${anchor(tableHeading(field.of))})`;
  if (field.choices !== undefined) return `one of: ${field.choices.join(', ')}`;
  return [words, bounds(field)].filter((each) => each !== '').join(', ');
}

function blank(field: FieldSchema, table?: TableSchema): string {
  if (
    field.required ||
    (table?.key.includes(field.id) === true && field.blank === undefined && field.kind === 'key')
  )
    return '**needed**';
  if (field.blank === undefined) return field.blankFrom === undefined ? '' : `as in ${field.blankFrom}`;
  return field.blankMetric === undefined ? field.blank : `${field.blank} (metric: ${field.blankMetric})`;
}

function meaning(field: FieldSchema, of: Defined | undefined): string {
  if (of === undefined) return `A name from ${field.of ?? 'another table'}.`;
  return [sentence(filled(of.column.heading)), filled(of.column.note)]
    .filter((each) => each !== '')
    .join(' ');
}

const tableHeading = (table: string): string => `${table}.csv`;

/** The first cell of a column that is not blank in a demo book. */
function exampleOf(table: string, field: string): string {
  for (const text of [demoBook('starter').get(`${table}.csv`), shipped.tables.get(`${table}.csv`)]) {
    const rows = Papa.parse<Record<string, string>>(text ?? '', { header: true, skipEmptyLines: true }).data;
    const found = rows.map((row) => row[field] ?? '').find((cell) => cell !== '');
    if (found !== undefined) return found.length > 40 ? `${found.slice(0, 38)}…` : found;
  }
  return '';
}

function tableSection(table: TableSchema): string {
  const sheets = [...defined]
    .filter(([id]) => id.startsWith(`${table.table}.`))
    .map(([, { sheet }]) => sheet);
  const sheet = sheets.find(({ rows }) => 'table' in rows && rows.table === table.table) ?? sheets[0];
  const says = [
    sheet === undefined || !('table' in sheet.rows)
      ? 'Figures that you set by hand; every other one is worked out.'
      : sentence(filled(sheet.answers)),
    table.needed ? '**A book needs this table.**' : 'May be missing.',
    table.key.length > 0
      ? `Each ${table.key.map(code).join(' with ')} once.`
      : 'Rows may repeat; they add up.',
    table.eachSize === true ? 'A product with a size run stands for all of its sizes.' : '',
    table.apart === true ? 'No price depends on it.' : '',
    sheet === undefined ? '' : `Sheet *${sheet.title}*.`,
  ];
  return [
    `## ${tableHeading(table.table)}`,
    says.filter((each) => each !== '').join(' '),
    markdownTable(
      ['column', 'meaning', 'accepts', 'blank means', 'example'],
      table.fields.map((field) => [
        code(field.id),
        meaning(field, defined.get(`${table.table}.${field.id}`)),
        accepted(field),
        blank(field, table),
        code(exampleOf(table.table, field.id)),
      ]),
    ),
  ].join('\n\n');
}

/** Remarks above the lines of the starter's book.yaml, by setting. */
function remarks(): Map<string, string> {
  const found = new Map<string, string>();
  let remark: string[] = [];
  for (const line of (demoBook('starter').get('book.yaml') ?? '').split('\n')) {
    const name = /^(\w+):/.exec(line)?.[1];
    if (name !== undefined) found.set(name, remark.join(' '));
    remark = line.startsWith('# ') ? [...remark, line.slice(2)] : [];
  }
  return found;
}

function settingsSection(): string {
  const values = parse(demoBook('starter').get('book.yaml') ?? '') as Record<string, unknown>;
  const told = remarks();
  const row = (name: string, accepts: string, blankMeans: string): string[] => {
    const says = told.get(name);
    if (says === undefined) throw new Error(`The starter's book.yaml does not explain ${name}`);
    return [code(name), says, accepts, blankMeans, code(String(values[name]))];
  };
  return [
    '## book.yaml',
    'One line a setting, `name: value`; what follows a # is a remark. **A book needs this file.**',
    markdownTable(
      ['setting', 'meaning', 'accepts', 'left out means', 'example'],
      [
        ...settingNames.map((name) => row(name, '', name === 'currency' ? '**needed**' : '')),
        ...schema.record.map((field) => row(field.id, accepted(field), blank(field))),
      ],
    ),
  ].join('\n\n');
}

function kindTable(): string {
  return markdownTable(
    ['kind', 'bare numbers are in', 'written'],
    Object.values(kinds).map(([words, unit, written]) => [words, unit, written]),
  );
}

/** The inside of docs/reference/tables.md. */
export function tablesReference(): string {
  return [
    '## What cells accept',
    kindTable(),
    '## The files',
    [
      '[book.yaml](#bookyaml)',
      ...schema.tables.map(({ table }) => `[${tableHeading(table)}](${anchor(tableHeading(table))})`),
    ].join(', '),
    settingsSection(),
    ...schema.tables.map(tableSection),
  ].join('\n\n');
}
