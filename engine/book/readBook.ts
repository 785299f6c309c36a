import type { Book, BookFiles, BookValue, Table } from './book.ts';
import { checkReferences } from './checks/checkReferences.ts';
import { neededColumns } from './files/headingPositions.ts';
import { strayFiles } from './files/strayFiles.ts';
import { parseYaml, type YamlFile } from './files/yamlFile.ts';
import { mergeShipped } from './mergeShipped.ts';
import { gatherAlike } from './problems/gatherAlike.ts';
import { nearest } from './problems/nearest.ts';
import { type Problem, type ProblemCode, problem } from './problems/problem.ts';
import { readField } from './readField.ts';
import { readTable, type TableReading } from './readTable.ts';
import type { FieldSchema, TableSchema } from './schema.ts';
import { readSettings, type Settings, settingNames } from './settings.ts';
import { sizeRuns } from './sizes/sizeRuns.ts';

export interface BookSchema {
  /** Fields of `book.yaml` beyond its settings. */
  readonly record: readonly FieldSchema[];
  readonly tables: readonly TableSchema[];
}

/**
 * Reads and checks a whole book.
 *
 * @param shipped tables that come with Sennit, by file name; rows of the book replace them by key
 * @returns the book (complete enough to look at even with problems) and every problem found
 */
export function readBook(
  files: BookFiles,
  schema: BookSchema,
  shipped: BookFiles,
): { book: Book; problems: Problem[] } {
  const source = files.get('book.yaml');
  const yaml = parseYaml('book.yaml', source ?? '');
  const { settings, problems: settingProblems } = readSettings(yaml);
  const problems: Problem[] = [];
  if (source === undefined) {
    problems.push(
      problem('file-missing', { file: 'book.yaml' }, 'There is no book.yaml, so this folder is not a book.', {
        accepted: 'a folder with book.yaml, materials.csv, products.csv and channels.csv',
        mend: 'Make a starter book with: sennit new <folder>.',
      }),
    );
  } else {
    problems.push(
      ...(yaml.problems.length > 0 ? yaml.problems : yaml.isMap ? settingProblems : [notSettings(source)]),
    );
  }
  const readable = source !== undefined && yaml.problems.length === 0 && yaml.isMap;
  const record = readRecord(yaml, schema.record, settings, readable ? problems : []);

  const readings = new Map<string, TableReading>();
  for (const table of schema.tables) {
    readings.set(table.table, readOneTable(files, shipped, table, settings, problems));
  }
  for (const each of strayFiles(files, schema.tables)) problems.push(each);
  const sized = sizeRuns(readings, schema.tables);
  for (const each of sized.problems) problems.push(each);
  for (const each of checkReferences(sized.readings, schema.tables, sized.sizesOf)) problems.push(each);
  const tables = new Map<string, Table>([...sized.readings].map(([name, { table }]) => [name, table]));
  // Without the book's settings nobody knows how its figures are written.
  const sure = readable && !settingProblems.some(({ where }) => where.column === 'decimal');
  const told = sure
    ? gatherAlike(problems, settings.decimal, yaml.place('decimal'))
    : problems.filter(({ code }) => !numeric.includes(code));
  return { book: { settings, record, tables }, problems: told };
}

const numeric: readonly ProblemCode[] = ['not-a-number', 'not-a-measure', 'out-of-range', 'percent-suspect'];

function notSettings(source: string): Problem {
  const message = source.trim() === '' ? 'book.yaml is empty.' : 'book.yaml holds no settings.';
  return problem('setting-missing', { file: 'book.yaml' }, message, {
    accepted: 'lines such as currency: USD',
    mend: 'Take the book.yaml of a starter book (sennit new <folder>) and change its figures.',
  });
}

function readOneTable(
  files: BookFiles,
  shipped: BookFiles,
  schema: TableSchema,
  settings: Settings,
  problems: Problem[],
): TableReading {
  const file = `${schema.table}.csv`;
  const text = files.get(file);
  if (text === undefined && schema.needed) {
    problems.push(
      problem('file-missing', { file }, `The table ${file} is missing.`, {
        accepted: `a file ${file} with at least the columns ${neededColumns(schema).join(', ')}`,
        mend: 'Add it; a starter book (sennit new <folder>) shows how it looks.',
      }),
    );
  }
  const own = readTable(file, text ?? '', text === undefined ? { ...schema, fields: [] } : schema, settings);
  // One by one, here and below: a big table can have more faults than a call takes arguments.
  for (const each of own.problems) problems.push(each);
  if (schema.needed && text !== undefined && own.table.rowCount === 0 && !own.torn) {
    const empty = own.present.size === 0 && text.trim() === '';
    problems.push(
      problem(
        'cell-missing',
        { file },
        empty ? `The file ${file} is empty.` : `The table ${file} has no rows.`,
        {
          accepted: empty
            ? `a line of headings (at least ${neededColumns(schema).join(', ')}), and a row`
            : 'at least one row',
          mend: empty
            ? 'Add headings and rows; a starter book (sennit new <folder>) shows how they look.'
            : 'Add a row.',
        },
      ),
    );
  }
  const base = shipped.get(file);
  if (base === undefined) return own;
  const shippedReading = readTable(`templates/${file}`, base, schema, { ...settings, decimal: 'point' });
  const [fault] = shippedReading.problems;
  if (fault !== undefined) throw new Error(`The shipped ${file} cannot be read: ${fault.message}`);
  return mergeShipped(shippedReading, own, schema.key);
}

function readRecord(
  yaml: YamlFile,
  fields: readonly FieldSchema[],
  settings: Settings,
  problems: Problem[],
): Map<string, BookValue> {
  const known = fields.map((field) => field.id);
  const meant = new Set<string | undefined>();
  for (const key of yaml.keys) {
    if (settingNames.includes(key) || known.includes(key)) continue;
    const near = nearest(key, [...settingNames, ...known]);
    meant.add(near);
    problems.push(
      problem('setting-unknown', yaml.place(key), `“${key}” is not a setting of the book.`, {
        found: key,
        accepted: [...settingNames, ...known].join(', '),
        mend:
          near === undefined
            ? 'Remove the line, or write # before it to keep it as a remark.'
            : `Did you mean “${near}”?`,
      }),
    );
  }
  const record = new Map<string, BookValue>();
  for (const field of fields) {
    const place = { ...yaml.place(field.id), column: field.id };
    if (yaml.isNested(field.id)) {
      problems.push(
        problem('not-a-number', place, `${field.id} holds a list or a group of lines, not one figure.`, {
          accepted: `one line, ${field.id}: figure`,
          mend: 'Write the figure on the same line.',
        }),
      );
      record.set(field.id, null);
      continue;
    }
    const text = yaml.text(field.id) ?? '';
    if (text === '' && field.required) {
      // A name with a typing mistake has been reported already.
      if (!meant.has(field.id)) {
        problems.push(
          problem(
            'setting-missing',
            { ...yaml.place(field.id), column: field.id },
            `The book does not say its ${field.id}.`,
            {
              accepted: `a line ${field.id}: figure`,
              mend: `Write a line ${field.id}: with the figure.`,
            },
          ),
        );
      }
      record.set(field.id, null);
      continue;
    }
    record.set(field.id, readField(text, field, settings, place, problems).value);
  }
  return record;
}
