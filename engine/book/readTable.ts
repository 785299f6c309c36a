import { type BookValue, joinNames, type Table } from './book.ts';
import type { WrittenUnit } from './cellReading.ts';
import { type CsvFile, parseCsv } from './files/csvFile.ts';
import { headingPositions } from './files/headingPositions.ts';
import { type Rejoined, rejoined } from './files/splitFigure.ts';
import { type Place, type Problem, problem } from './problems/problem.ts';
import { readCell } from './readCell.ts';
import { readField } from './readField.ts';
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
  if (csv.headings.length === 0)
    return readRows(csv, schema, { position: new Map(), settings, problems: [...csv.problems] });
  const found: Problem[] = [];
  const { position, moved } = headingPositions(csv, schema, found);
  if (moved) {
    const unread = { ...csv, rows: [], torn: true };
    return readRows(unread, schema, { position, settings, problems: found });
  }
  const reading = readRows(csv, schema, { position, settings, problems: [...found, ...csv.problems] });
  const mended = withoutSplits(csv, schema, { position, settings, problems: reading.problems });
  if (mended === undefined) return reading;
  return readRows(mended, schema, { position, settings, problems: [...found, ...mended.problems] });
}

interface HowRead {
  readonly position: ReadonlyMap<string, number>;
  readonly settings: Settings;
  readonly problems: readonly Problem[];
}

/** Reads the cells under the headings that were found, and adds their problems to those there are. */
function readRows(
  csv: CsvFile,
  schema: TableSchema,
  { position, settings, problems: before }: HowRead,
): TableReading {
  const { file } = csv;
  const problems = [...before];
  const columns = new Map<string, BookValue[]>();
  const withUnit = new Map<string, Map<number, WrittenUnit>>();
  const places: Place[] = csv.rows.map(({ row }) => ({ file, row }));
  for (const field of schema.fields) {
    const united = new Map<number, WrittenUnit>();
    const read = cellReader(csv, field, schema, position, settings);
    columns.set(
      field.id,
      csv.rows.map(({ row, cells }, index) => {
        const { value, given } = read(cells, row, problems);
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

type ReadCell = (
  cells: readonly string[],
  row: number,
  problems: Problem[],
) => { readonly value: BookValue; readonly given?: WrittenUnit };

/** How the cell of one column is read from a row. */
function cellReader(
  { file, headings }: CsvFile,
  given: FieldSchema,
  schema: TableSchema,
  position: ReadonlyMap<string, number>,
  settings: Settings,
): ReadCell {
  // The names of owners are checked against their own table, where a bad one is reported.
  const field: FieldSchema =
    given.of !== undefined || given.id === schema.belongs?.column ? { ...given, kind: 'ref' } : given;
  const at = position.get(field.id);
  const heading = at === undefined ? undefined : headings[at];
  const unit = heading?.unit ?? heading?.measure;
  const other = field.blankFrom === undefined ? undefined : position.get(field.blankFrom);
  return (cells, row, problems) => {
    const own = at === undefined ? '' : (cells[at] ?? '');
    const text = own === '' && other !== undefined ? (cells[other] ?? '') : own;
    return readField(
      text,
      field,
      settings,
      { file, row, column: field.id },
      problems,
      unit,
      at !== undefined,
    );
  };
}

/** Kinds that hold no figure. */
const wordKinds: readonly FieldSchema['kind'][] = [
  'key',
  'ref',
  'text',
  'formula',
  'choice',
  'yes_no',
  'date',
];

/** The table as it was meant where commas have split figures, each of them told; nothing where none has. */
function withoutSplits(
  csv: CsvFile,
  schema: TableSchema,
  { position, settings, problems: told }: HowRead,
): CsvFile | undefined {
  if (csv.mark !== ',') return undefined;
  const readers = schema.fields.map((field) => cellReader(csv, field, schema, position, settings));
  // Some programs write a comma at the end of every row.
  const isLong = (cells: readonly string[]): boolean => cells.length > csv.width;
  const allLong = csv.rows.length > 1 && csv.rows.every(({ cells }) => isLong(cells));
  const faults = (cells: readonly string[]): number => {
    const found: Problem[] = [];
    for (const read of readers) read(cells, 0, found);
    const beyond = cells.slice(csv.headings.length).some((cell) => cell !== '') ? 1 : 0;
    const excess = Math.max(beyond, allLong ? 0 : cells.length - csv.width);
    return found.filter(({ severity }) => severity === 'error').length + excess;
  };
  const fieldAt = new Map(schema.fields.map((field) => [position.get(field.id), field]));
  const isFigure = (at: number, text: string): boolean => {
    const field = fieldAt.get(at);
    if (field === undefined || field.of !== undefined || wordKinds.includes(field.kind)) return false;
    const heading = csv.headings[at];
    return !('fault' in readCell(text, field, settings, heading?.unit ?? heading?.measure));
  };
  const asWritten = (at: number, text: string): string | undefined => (isFigure(at, text) ? text : undefined);
  // A decimal comma in a book of decimal points splits a figure too: 61,00 or 7,5 cm.
  const asPoint = (at: number, text: string): string | undefined => {
    const isDecimal = settings.decimal === 'point' && /^[+-]?\d+,\d{1,2}(?!\d)/.test(text);
    return isDecimal ? asWritten(at, text.replace(',', '.')) : undefined;
  };
  const faulty = new Set(told.map(({ where }) => where.row));
  const meant = new Map<number, Rejoined>();
  for (const { row, cells } of csv.rows) {
    if (!isLong(cells) && !faulty.has(row)) continue;
    const whole = rejoined(cells, asWritten, faults) ?? rejoined(cells, asPoint, faults);
    if (whole !== undefined) meant.set(row, whole);
  }
  if (meant.size === 0) return undefined;
  const splits = [...meant].flatMap(([row, { figures }]) =>
    [...figures].map(([at, { text, figure, parts }]) => {
      const place = { file: csv.file, row, column: fieldAt.get(at)?.id ?? '' };
      const cut = parts.map((each) => `“${each}”`).join(' and ');
      const bare = settings.decimal === 'point' ? ', or without its comma' : '';
      if (figure !== text) {
        const decimal = `The comma in “${text}” splits it into two cells, ${cut}, as this book writes decimals with a point.`;
        return problem('cell-surplus', place, decimal, {
          found: text,
          accepted: figure,
          mend: `Write ${figure}.`,
        });
      }
      const message = `The comma in “${text}” splits it into two cells, ${cut}, as it has no quotation marks.`;
      return problem('cell-surplus', place, message, {
        found: text,
        accepted: `"${text}" in quotation marks`,
        mend: `Write "${text}" with quotation marks round it${bare}.`,
      });
    }),
  );
  return {
    ...csv,
    rows: csv.rows.map(({ row, cells }) => ({ row, cells: meant.get(row)?.cells ?? cells })),
    problems: [...splits, ...csv.problems.filter(({ where }) => !meant.has(where.row ?? 0))],
  };
}
