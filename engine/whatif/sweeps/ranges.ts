import { sameKey } from '../../book/book.ts';
import { mendName } from '../../book/problems/nearest.ts';
import { type Place, type Problem, problem } from '../../book/problems/problem.ts';
import type { CellValue, Plan } from '../../sheets/plan.ts';
import type { ChangeFault } from '../words/change.ts';
import { isFault } from '../words/findInputs.ts';
import { sheetOf } from '../words/inputRows.ts';
import { type ShapeWord, shapeOf } from './rangeShape.ts';
import type { UncertainInput } from './uncertain.ts';

/** A row of ranges.csv that names a weave whose figure comes from test pieces. */
export interface SampledRange {
  readonly input: string;
  readonly weave: string;
  readonly where: Place;
}

export interface Ranges {
  readonly inputs: readonly UncertainInput[];
  readonly sampled: readonly SampledRange[];
}

/** Reads the sheet Ranges of a plan, where it has one; reports every row that cannot be drawn from. */
export function readRanges(plan: Plan): { readonly ranges: Ranges; readonly problems: Problem[] } {
  const sheet = sheetOf(plan, 'ranges');
  const problems: Problem[] = [];
  const inputs: UncertainInput[] = [];
  const sampled: SampledRange[] = [];
  const cell = (column: string, row: number): CellValue =>
    sheet?.columns.find(({ id }) => id === column)?.inputs?.[row] ?? null;
  const text = (column: string, row: number): string => String(cell(column, row) ?? '');
  for (let row = 0; row < (sheet?.rowCount ?? 0); row += 1) {
    const where = sheet?.places[row] ?? { file: 'ranges.csv' };
    const input = text('input', row);
    const spread = cell('spread_percent', row);
    const word = text('shape', row) as ShapeWord | 'samples';
    const given = {
      low: text('low', row),
      likely: text('likely', row),
      high: text('high', row),
      spread: typeof spread === 'number' ? spread : undefined,
    };
    const read = word === 'samples' ? weaveOf(input, given, plan) : shapeOf(input, word, given, plan);
    if (isFault(read)) {
      const { message, accepted, mend } = read;
      const column = 'column' in read ? String(read.column) : 'input';
      const found = column === 'input' ? input : text(column, row);
      problems.push(problem('change-unclear', { ...where, column }, message, { found, accepted, mend }));
    } else if ('weave' in read)
      sampled.push({ input, weave: read.weave, where: { ...where, column: 'input' } });
    else inputs.push(read);
  }
  return { ranges: { inputs, sampled }, problems };
}

/** `cord of bar`, or the weave alone. */
function weaveOf(
  input: string,
  given: {
    readonly low: string;
    readonly likely: string;
    readonly high: string;
    readonly spread: number | undefined;
  },
  plan: Plan,
): { readonly weave: string } | (ChangeFault & { readonly column: string }) {
  const keys = (id: string, column: string): string[] =>
    (sheetOf(plan, id)?.columns.find((each) => each.id === column)?.inputs ?? []).map(String);
  const name = /^(?:cord|take-up|pitch|angle|figure) (?:of|in|for) (.+)$/i.exec(input)?.[1] ?? input;
  const weaves = keys('weaves', 'weave');
  const weave = weaves.find((each) => sameKey(each) === sameKey(name));
  if (weave === undefined)
    return {
      column: 'input',
      message: `“${name}” is no weave of this book, so it has no test pieces.`,
      accepted: 'cord of a weave, such as cord of bar',
      mend: mendName(name, weaves),
    };
  const sampled = [...new Set(keys('samples', 'weave'))];
  if (!sampled.some((each) => sameKey(each) === sameKey(weave)))
    return {
      column: 'input',
      message: `The weave “${weave}” has no test pieces in samples.csv.`,
      accepted: sampled.length === 0 ? 'a weave with test pieces' : `cord of ${sampled.join(', ')}`,
      mend: 'Measure one, or give the range in figures with another shape.',
    };
  const filled = (['low', 'likely', 'high'] as const).find((each) => given[each] !== '');
  const column = filled ?? (given.spread === undefined ? undefined : 'spread_percent');
  if (column !== undefined)
    return {
      column,
      message: 'Test pieces say themselves how far the figure may be off.',
      accepted: 'low, likely, high and spread_percent blank',
      mend: 'Leave the cell blank, or choose another shape.',
    };
  return { weave };
}
