import { nearest } from '../problems/nearest.ts';
import { type Place, type Problem, problem } from '../problems/problem.ts';
import type { FieldSchema, TableSchema } from '../schema.ts';
import type { CsvFile, CsvHeading } from './csvFile.ts';

/** Kinds whose heading may state a unit of weight or force; over any other column it would be a slip. */
const measuredKinds: readonly FieldSchema['kind'][] = ['weight', 'weight_per_unit', 'force'];

/** Where the columns stand, by their ids. */
export interface Headings {
  readonly position: ReadonlyMap<string, number>;
  /** Headings stand over the wrong cells, or there are none: what the cells say cannot be judged. */
  readonly moved: boolean;
}

/** Finds the columns of the schema among the headings, reporting gaps first, then strangers and twins. */
export function headingPositions(csv: CsvFile, schema: TableSchema, problems: Problem[]): Headings {
  const { file, headingRow: row } = csv;
  const known = schema.fields.map((field) => field.id);
  const weighed = schema.fields.filter(({ kind }) => measuredKinds.includes(kind)).map(({ id }) => id);
  const unused = known.filter((id) => !csv.headings.some((each) => each.id === id));
  const missing = neededColumns(schema).filter((id) => unused.includes(id));
  const position = new Map<string, number>();
  const strangers: string[] = [];
  const nameless: number[] = [];
  const others: Problem[] = [];
  csv.headings.forEach((heading, index) => {
    const place = { file, row, column: heading.text };
    if (heading.id === '') {
      if (csv.rows.some(({ cells }) => (cells[index] ?? '') !== '')) nameless.push(index + 1);
    } else if (position.has(heading.id)) {
      others.push(
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
      if (missing.length === 0) others.push(stranger(heading, place, unused));
    }
  });
  const gaps = missing.map((id) => ({
    id,
    typed: nearest(id, strangers) ?? strangers.find((text) => nearest(text, [id]) !== undefined),
  }));
  if (gaps.length > 0 && position.size === 0 && gaps.every(({ typed }) => typed === undefined)) {
    problems.push(noHeadings(csv, missing));
    return { position, moved: true };
  }
  const longer = csv.rows.filter(({ cells }) => cells.length > csv.headings.length).length;
  const isLost = gaps.some(({ typed }) => typed === undefined) && nameless.length === 0;
  const moved = isLost && longer * 2 > csv.rows.length;
  for (const { id, typed } of gaps) {
    const message = moved
      ? `The heading ${id} is missing, and rows have more cells than there are headings, so that cells stand under the wrong ones.`
      : `The column ${id} is missing.`;
    problems.push(
      problem('column-missing', { file, row, column: id }, message, {
        found: typed ?? '',
        accepted: `a heading ${id}`,
        mend: moved
          ? `Put the heading ${id} back over its cells. Once headings and cells stand together, the cells are read.`
          : mendGap(id, typed, strangers, nameless),
      }),
    );
  }
  if (moved) return { position, moved };
  for (const each of others) problems.push(each);
  // Where a column is missing, those without a heading have been named there.
  if (missing.length === 0)
    for (const at of nameless) problems.push(withoutHeading({ file, row }, at, unused));
  return { position, moved };
}

function stranger({ text, id }: CsvHeading, place: Place, unused: readonly string[]): Problem {
  const near = nearest(id, unused);
  return problem(
    'column-unknown',
    place,
    `“${text}” is not a column that the sheets use; it is kept and left alone.`,
    {
      severity: 'watch',
      found: text,
      accepted: unused.length === 0 ? 'nothing more: all columns are there' : unused.join(', '),
      mend:
        near === undefined
          ? 'Nothing, if it is for you; or use it in a sheet of your own.'
          : `Did you mean “${near}”?`,
    },
  );
}

function withoutHeading(place: Place, at: number, unused: readonly string[]): Problem {
  return problem('column-unknown', place, `Column ${at} has cells but no heading.`, {
    accepted: [...unused, 'a heading of your own'].join(', '),
    mend: 'Give it a heading.',
  });
}

function noHeadings({ file, headingRow: row, headings }: CsvFile, missing: readonly string[]): Problem {
  const first = headings.slice(0, 3).map(({ text }) => `“${text}”`);
  return problem('column-missing', { file, row }, `None of the headings of ${file} stands in this row.`, {
    found: first.join(', '),
    accepted: `a row of headings, at least ${missing.join(', ')}`,
    mend: 'Put the row of headings above the first row; about.txt of a starter book (sennit new <folder>) names them all.',
  });
}

function mendGap(
  id: string,
  typed: string | undefined,
  strangers: readonly string[],
  nameless: readonly number[],
): string {
  if (typed !== undefined) return `Change the heading “${typed}” to ${id}.`;
  const [only] = nameless;
  if (nameless.length > 1)
    return `Columns ${nameless.join(', ')} have cells but no heading: write ${id} over the one that holds it.`;
  if (only !== undefined)
    return `Column ${only} has cells but no heading: write ${id} there, if that is what it holds.`;
  const others = strangers.map((text) => `“${text}”`).join(', ');
  return strangers.length > 0
    ? `Add a column with the heading ${id}, or give that heading to the column that holds it; no sheet uses ${others}.`
    : `Add a column with the heading ${id}.`;
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
