import { type BookValue, joinNames, type Table } from './book.ts';
import type { WrittenUnit } from './cellReading.ts';
import { type CsvFile, parseCsv } from './csvFile.ts';
import { nearest } from './nearest.ts';
import { longestFigure } from './numberText.ts';
import { type Place, type Problem, problem } from './problem.ts';
import { readCell } from './readCell.ts';
import type { FieldSchema, TableSchema } from './schema.ts';
import type { Settings } from './settings.ts';

/** A table as read, with what later checks need to know: which cells were written with a unit. */
export interface TableReading {
  readonly table: Table;
  readonly problems: readonly Problem[];
  /** Rows (by index) whose cell in that column carried a unit, and which. */
  readonly withUnit: ReadonlyMap<string, ReadonlyMap<number, WrittenUnit>>;
  /** Columns that the file has a heading for. */
  readonly present: ReadonlySet<string>;
  /** The rows could not all be read, so a name that is not among them may well be in the file. */
  readonly torn: boolean;
}

/**
 * Reads one CSV table by its schema. Unknown columns are reported and left alone; all faulty cells are
 * reported together and stand as blank in the table.
 */
export function readTable(
  file: string,
  source: string,
  schema: TableSchema,
  settings: Settings,
): TableReading {
  const csv = parseCsv(file, source);
  const problems: Problem[] = [...csv.problems];
  const position =
    csv.headings.length === 0 ? new Map<string, number>() : headingPositions(csv, schema, problems);
  const columns = new Map<string, BookValue[]>();
  const withUnit = new Map<string, Map<number, WrittenUnit>>();
  const places: Place[] = csv.rows.map(({ row }) => ({ file, row }));

  for (const given of schema.fields) {
    // The names of owners are checked against their own table, where a bad one is reported.
    const field: FieldSchema =
      given.of !== undefined || given.id === schema.belongs?.column ? { ...given, kind: 'ref' } : given;
    const at = position.get(field.id);
    const heading = at === undefined ? undefined : csv.headings[at];
    const unit = heading?.unit ?? heading?.measure;
    const united = new Map<number, WrittenUnit>();
    const other = field.blankFrom === undefined ? undefined : position.get(field.blankFrom);
    const standIn = (cells: readonly string[]): string => (other === undefined ? '' : (cells[other] ?? ''));
    columns.set(
      field.id,
      csv.rows.map(({ row, cells }, index) => {
        const own = at === undefined ? '' : (cells[at] ?? '');
        const text = own === '' ? standIn(cells) : own;
        const place = { file, row, column: field.id };
        const { value, given } = readField(text, field, settings, place, problems, unit, at !== undefined);
        if (given !== undefined) united.set(index, given);
        return value;
      }),
    );
    if (field.kind === 'quantity' || field.kind === 'weight_per_unit') withUnit.set(field.id, united);
  }
  // A column whose cells another one fills in is as good as there.
  const stoodIn = schema.fields.flatMap(({ id, blankFrom }) =>
    blankFrom !== undefined && position.has(blankFrom) ? [id] : [],
  );
  for (const { id, from } of schema.joined ?? []) {
    columns.set(
      id,
      csv.rows.map((_, row) => joinNames(from.map((each) => columns.get(each)?.[row] ?? null))),
    );
  }
  return {
    table: { name: schema.table, rowCount: csv.rows.length, columns, places },
    problems,
    withUnit,
    present: new Set([...position.keys(), ...stoodIn]),
    torn: csv.torn,
  };
}

/** Reads the text of one field; a blank takes the field's default, or is a problem where it has none. */
export function readField(
  text: string,
  field: FieldSchema,
  settings: Settings,
  place: Place,
  problems: Problem[],
  headingUnit?: string,
  blankIsProblem = true,
): { value: BookValue; given?: WrittenUnit } {
  const metric = settings.lengthUnit !== 'in';
  let filled = text;
  if (text === '') {
    const standIn = metric ? (field.blankMetric ?? field.blank) : field.blank;
    if (standIn === undefined) {
      if (field.required && blankIsProblem) {
        problems.push(
          problem('cell-missing', place, `The cell is blank, and ${field.id} is needed.`, {
            accepted: acceptedWords(field),
            mend: 'Fill in the cell.',
          }),
        );
      }
      return { value: null };
    }
    // Defaults come from the sheets, which are written with a decimal point.
    filled = standIn;
  }
  const most = mostCharacters(field);
  if (text.length > most) {
    const found = `${text.slice(0, 60)}…`;
    const message = `The cell holds ${text.length} characters, more than ${field.id} takes.`;
    const accepted = `up to ${most} characters`;
    problems.push(problem('cell-too-long', place, message, { found, accepted, mend: 'Shorten it.' }));
    return { value: null };
  }
  const reading = readCell(
    filled,
    field,
    text === '' ? { ...settings, decimal: 'point' } : settings,
    text === '' ? undefined : headingUnit,
  );
  if ('fault' in reading) {
    const { code, message, accepted, mend } = reading.fault;
    problems.push(problem(code, place, message, { found: text, accepted, mend }));
    // A name that cannot be used is still the one that other tables call it by.
    return { value: code === 'key-bad' ? text : null };
  }
  if (reading.watch !== undefined && text !== '') {
    const { code, message, accepted, mend } = reading.watch;
    problems.push(problem(code, place, message, { severity: 'watch', found: text, accepted, mend }));
  }
  return reading.unit === undefined
    ? { value: reading.value }
    : { value: reading.value, given: reading.unit };
}

/** A cell of a workbook ends at 32,767 characters, and a formula may join several of these. */
const longestText = 4000;

/** Text is refused rather than cut: nobody looks for what is missing at the end of a long cell. */
function mostCharacters(field: FieldSchema): number {
  // Of a key that is too long, readCell tells more.
  if (field.kind === 'key') return Number.POSITIVE_INFINITY;
  return field.kind === 'text' || field.kind === 'formula' ? longestText : longestFigure;
}

const kindWords: Partial<Record<FieldSchema['kind'], string>> = Object.freeze({
  key: 'a name of its own',
  text: 'text',
  money: 'an amount of money',
  percent: 'a percentage',
  count: 'a whole number',
  length: 'a length',
  cord: 'a length',
  fine: 'a length',
  quantity: 'a number of pieces, or a length',
  weight: 'a weight',
  weight_per_unit: 'a weight',
  force: 'a breaking strength',
  minutes: 'a number of minutes',
  hours: 'a number of hours',
  date: 'a day such as 2026-10-31',
});

/** What a column takes, in a few words. */
export function acceptedWords(field: FieldSchema): string {
  if (field.choices !== undefined) return field.choices.join(', ');
  if (field.of !== undefined) return `a name from ${field.of}`;
  return kindWords[field.kind] ?? 'a number';
}

/** Kinds whose heading may state a unit of weight or force; over any other column it would be a slip. */
const measuredKinds: readonly FieldSchema['kind'][] = ['weight', 'weight_per_unit', 'force'];

/** Finds the columns of the schema among the headings, reporting strangers, twins and gaps. */
function headingPositions(csv: CsvFile, schema: TableSchema, problems: Problem[]): Map<string, number> {
  const known = schema.fields.map((field) => field.id);
  const weighed = schema.fields.filter(({ kind }) => measuredKinds.includes(kind)).map(({ id }) => id);
  const unused = known.filter((id) => !csv.headings.some((each) => each.id === id));
  const missing = neededColumns(schema).filter((id) => unused.includes(id));
  const position = new Map<string, number>();
  const strangers: string[] = [];
  csv.headings.forEach((heading, index) => {
    const place = { file: csv.file, row: csv.headingRow, column: heading.text };
    if (heading.id === '') {
      if (csv.rows.some(({ cells }) => (cells[index] ?? '') !== '')) {
        problems.push(
          problem(
            'column-unknown',
            { file: csv.file, row: csv.headingRow },
            `Column ${index + 1} has cells but no heading.`,
            {
              accepted: [...unused, 'a heading of your own'].join(', '),
              mend: 'Give it a heading.',
            },
          ),
        );
      }
    } else if (position.has(heading.id)) {
      problems.push(
        problem('column-twice', place, `The heading “${heading.text}” stands twice.`, {
          found: heading.text,
          accepted: 'each heading once',
          mend: 'Remove or rename one of the two.',
        }),
      );
    } else if ((heading.measure === undefined ? known : weighed).includes(heading.id)) {
      position.set(heading.id, index);
    } else {
      strangers.push(heading.text);
      // One of these may well be the missing column, and is named there.
      if (missing.length > 0) return;
      const near = nearest(heading.id, unused);
      problems.push(
        problem(
          'column-unknown',
          place,
          `“${heading.text}” is not a column that the sheets use; it is kept and left alone.`,
          {
            severity: 'watch',
            found: heading.text,
            accepted: unused.length === 0 ? 'nothing more: all columns are there' : unused.join(', '),
            mend:
              near === undefined
                ? 'Nothing, if it is for you; or use it in a sheet of your own.'
                : `Did you mean “${near}”?`,
          },
        ),
      );
    }
  });
  for (const id of missing) {
    const typed = nearest(id, strangers) ?? strangers.find((text) => nearest(text, [id]) !== undefined);
    const others = strangers.map((text) => `“${text}”`).join(', ');
    const mend =
      typed !== undefined
        ? `Change the heading “${typed}” to ${id}.`
        : strangers.length > 0
          ? `Add a column with the heading ${id}, or give that heading to the column that holds it; no sheet uses ${others}.`
          : `Add a column with the heading ${id}.`;
    problems.push(
      problem(
        'column-missing',
        { file: csv.file, row: csv.headingRow, column: id },
        `The column ${id} is missing.`,
        {
          found: typed ?? '',
          accepted: `a heading ${id}`,
          mend,
        },
      ),
    );
  }
  return position;
}

/** Columns that a table cannot do without: those that name its rows, and required ones that have no default. */
export function neededColumns(schema: TableSchema): string[] {
  return schema.fields
    .filter(
      (field) =>
        (field.required || (field.kind === 'key' && schema.key.includes(field.id))) &&
        field.blank === undefined &&
        field.blankFrom === undefined,
    )
    .map((field) => field.id);
}
