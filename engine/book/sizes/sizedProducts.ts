import { alikeKey, type BookValue, joinNames, sameKey } from '../book.ts';
import { mostSizedRows, tooLarge } from '../limits.ts';
import { mendName } from '../problems/nearest.ts';
import { type Place, type Problem, problem } from '../problems/problem.ts';
import { longestKey } from '../readCell.ts';
import type { TableReading } from '../readTable.ts';
import type { TableSchema } from '../schema.ts';
import { type Pick, pickRows } from './pickRows.ts';

/** A product that stands for one product a size: its name, and those of its sizes in the order of the run. */
export interface SizedProduct {
  readonly product: string;
  readonly names: readonly string[];
}

/** Products with a size run, by `sameKey` of their name. */
export type SizesOf = ReadonlyMap<string, SizedProduct>;

/** Sizes by run, in the order of the table. */
function readRuns(sizes: TableReading | undefined): Map<string, { run: string; sizes: string[] }> {
  const runs = new Map<string, { run: string; sizes: string[] }>();
  const names = sizes?.table.columns.get('size') ?? [];
  (sizes?.table.columns.get('run') ?? []).forEach((run, row) => {
    const size = names[row];
    if (run === null || size === null || size === undefined) return;
    const known = runs.get(sameKey(String(run))) ?? { run: String(run), sizes: [] };
    runs.set(sameKey(String(run)), known);
    // A size that stands twice is told of in its own table.
    if (!known.sizes.some((each) => alikeKey(each) === alikeKey(String(size))))
      known.sizes.push(String(size));
  });
  return runs;
}

/** The products with one row a size where there is a run, and which names those rows got. */
export function sizedProducts(
  products: TableReading,
  schema: TableSchema,
  sizes: TableReading | undefined,
  problems: Problem[],
): { reading: TableReading; sizesOf: SizesOf } {
  const runs = readRuns(sizes);
  const cell = (id: string, row: number): BookValue => products.table.columns.get(id)?.[row] ?? null;
  const rows = Array.from({ length: products.table.rowCount }, (_, row) => row);
  const sizesAt = (row: number): number =>
    runs.get(sameKey(String(cell('size_run', row))))?.sizes.length ?? 0;
  if (rows.reduce((sum, row) => sum + Math.max(sizesAt(row), 1), 0) > mostSizedRows) {
    problems.push(tooManySizes(placeOf(products, rows.find((row) => sizesAt(row) > 0) ?? 0)));
    return { reading: products, sizesOf: new Map() };
  }
  // Of names that stand twice the check for twins tells; neither is laid out.
  const twins = new Set<string>();
  const taken = new Map<string, { name: string; row: number }>();
  for (const row of rows) {
    const name = String(cell('product', row));
    if (taken.has(alikeKey(name))) twins.add(alikeKey(name));
    else taken.set(alikeKey(name), { name, row });
  }
  const sizesOf = new Map<string, SizedProduct>();
  const picks: Pick[] = [];
  for (const row of rows) {
    const product = cell('product', row);
    const wanted = cell('size_run', row);
    if (product === null || wanted === null || twins.has(alikeKey(String(product)))) {
      picks.push({ row });
      continue;
    }
    const place = placeOf(products, row);
    for (const column of ['size', 'measure'])
      if (cell(column, row) !== null) problems.push(clash(`${product}`, `${wanted}`, { ...place, column }));
    const run = runs.get(sameKey(String(wanted)));
    if (run === undefined) {
      if (sizes?.torn !== true) problems.push(unknownRun(String(wanted), place, runs, sizes));
      picks.push({ row });
      continue;
    }
    const names: string[] = [];
    const stand: { name: string; row: number }[] = [];
    for (const size of run.sizes) {
      const name = `${product} ${size}`;
      const other = taken.get(alikeKey(name));
      names.push(other?.name ?? name);
      if (other !== undefined) {
        stand.push(other);
        continue;
      }
      if (name.length > longestKey) problems.push(tooLong(name, place));
      taken.set(alikeKey(name), { name, row });
      const cells = new Map<string, BookValue>([
        ['product', name],
        ['size', size],
        ['size_run', run.run],
      ]);
      for (const { id, from } of schema.joined ?? [])
        cells.set(id, joinNames(from.map((each) => cells.get(each) ?? cell(each, row))));
      picks.push({ row, cells });
    }
    if (stand.length > 0) {
      const at = [...new Set(stand.map((each) => placeOf(products, each.row).row ?? 0))];
      const already = stand.map((each) => each.name);
      problems.push(standAlready(already, at, `${product}`, place));
    }
    sizesOf.set(sameKey(String(product)), { product: String(product), names });
  }
  return { reading: pickRows(products, picks), sizesOf };
}

/** Products times sizes can be more than a memory holds. */
export function tooManySizes(place: Place): Problem {
  return tooLarge(
    place,
    'Laid out in all sizes the table has too many rows',
    mostSizedRows,
    'Name fewer products with a size run, or give the run fewer sizes.',
  );
}

function clash(product: string, run: string, place: Place): Problem {
  const { column } = place;
  return problem('cell-clash', place, `“${product}” has a size run, and ${column} is filled in as well.`, {
    accepted: `either size_run or ${column}; the other blank`,
    mend: `Leave ${column} blank: the run “${run}” gives it for every size.`,
  });
}

function unknownRun(
  run: string,
  place: Place,
  runs: ReadonlyMap<string, { readonly run: string }>,
  sizes: TableReading | undefined,
): Problem {
  const known = [...runs.values()].map((each) => each.run);
  const none = sizes === undefined || sizes.table.rowCount === 0;
  return problem(
    'reference-unknown',
    { ...place, column: 'size_run' },
    `“${run}” is not a run of sizes.csv.`,
    {
      found: run,
      accepted: 'a run of sizes.csv, or nothing',
      mend: none
        ? 'Write sizes.csv with the columns run, size and measure, one row a size.'
        : mendName(run, known),
    },
  );
}

function standAlready(
  names: readonly string[],
  rows: readonly number[],
  product: string,
  place: Place,
): Problem {
  const [are, stand] = names.length === 1 ? ['is a size', 'stands'] : ['are sizes', 'stand'];
  const listed = names.map((name) => `“${name}”`).join(', ');
  const at = `${rows.length === 1 ? 'row' : 'rows'} ${rows.join(', ')}`;
  const message = `${listed} ${are} of “${product}” and ${stand} in ${at} already.`;
  return problem('key-twice', { ...place, column: 'size_run' }, message, {
    found: names.join(', '),
    accepted: 'each product once, capitals aside',
    mend: 'Remove one of the two, give it another name, or take the size out of the run.',
  });
}

function tooLong(name: string, place: Place): Problem {
  return problem(
    'key-bad',
    { ...place, column: 'size_run' },
    `The name “${name}” has ${name.length} characters, which is too long.`,
    {
      found: name,
      accepted: `up to ${longestKey} characters, the size included`,
      mend: 'Choose a shorter name for the product or its size.',
    },
  );
}

function placeOf({ table }: TableReading, row: number): Place {
  return table.places[row]!;
}
