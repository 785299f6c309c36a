import { oneInTwenty, type Shape } from '../../chance/shapes.ts';
import type { Plan } from '../../sheets/plan.ts';
import { readMove, sizeOf } from '../alterations.ts';
import { findMover, type Mover } from '../mover.ts';
import type { Alteration, ChangeFault } from '../words/change.ts';
import { findInputs, isFault } from '../words/findInputs.ts';
import type { UncertainInput } from './uncertain.ts';

export type ShapeWord = Shape['form'];

/** Cells of a row as written; empty where blank. */
export interface GivenRange {
  readonly low: string;
  readonly likely: string;
  readonly high: string;
  /** Ratio. */
  readonly spread: number | undefined;
}

/** A fault, and in which column of the row it is. */
export type RangeFault = ChangeFault & { readonly column: string };

const ends = ['low', 'likely', 'high'] as const;

/** Reads one row of ranges.csv. Where likely is blank it is the figure as it stands. */
export function shapeOf(
  input: string,
  form: ShapeWord,
  given: GivenRange,
  plan: Plan,
): UncertainInput | RangeFault {
  const named = findInputs(input, plan);
  if (isFault(named)) return { ...named, column: 'input' };
  const found = findMover(input, plan);
  if (isFault(found)) return { ...found, column: 'input' };
  if (found.columns.some(({ kind }) => kind === 'count'))
    return at(
      'input',
      `“${input}” is counted in whole numbers, which have no range.`,
      'a measured figure',
      'Leave the row out.',
    );
  const sizes = new Map<(typeof ends)[number], number>();
  let mover: Mover | undefined;
  let how: Alteration['how'] | undefined;
  for (const end of ends) {
    if (given[end] === '') continue;
    const move = readMove(input, zeroChange(given, end), plan);
    if (isFault(move)) return { ...move, column: end };
    if (how !== undefined && how !== move.alteration.how)
      return at(
        end,
        'Low, likely and high are of two sorts: some change the figure, others are a new one.',
        'three figures, or three changes with a sign such as -5 % and +20 %',
        'Give all of them a sign, or none.',
      );
    how = move.alteration.how;
    mover = move.mover;
    sizes.set(end, sizeOf(move.alteration));
  }
  how ??= 'percent';
  mover ??= found;
  if (how === 'value' && mover.cells.length > 1 && new Set(mover.before).size > 1)
    return at(
      'low',
      `“${input}” means ${mover.cells.length} figures that differ, so one figure cannot stand for them.`,
      'changes with a sign, such as -5 % and +20 %',
      'Write low and high as changes.',
    );
  const standing = how === 'value' ? mover.before[0] : 0;
  // Of a uniform one nothing is likelier, so today's figure may lie outside it.
  const likely = sizes.get('likely') ?? (form === 'uniform' ? sizes.get('low') : undefined) ?? standing;
  if (likely === null || likely === undefined)
    return at('likely', `“${input}” is blank in this book.`, 'a likely figure', 'Write the likely figure.');
  return made(input, form, mover, how, {
    low: sizes.get('low'),
    likely,
    given: sizes.has('likely'),
    high: sizes.get('high'),
    spread: given.spread,
  });
}

function at(column: string, message: string, accepted: string, mend: string): RangeFault {
  return { column, message, accepted, mend };
}

/** `0 %` beside changes is a change by nothing. */
function zeroChange(given: GivenRange, end: (typeof ends)[number]): string {
  const signed = ends.some((each) => /^[+−–-]/.test(given[each].trim()));
  const text = given[end].trim();
  return signed && /^0+(?:[.,]0+)?(?![\d.,])/.test(text) ? `+${text}` : text;
}

interface Sizes {
  readonly low: number | undefined;
  readonly likely: number;
  /** Whether likely was written down; else it is the figure as it stands. */
  readonly given: boolean;
  readonly high: number | undefined;
  readonly spread: number | undefined;
}

function made(
  input: string,
  form: ShapeWord,
  mover: Mover,
  how: Alteration['how'],
  { low, likely, given, high, spread }: Sizes,
): UncertainInput | RangeFault {
  if (low !== undefined && low > likely)
    return at(
      'low',
      given ? 'Low is more than likely.' : 'Low is more than the figure as it stands.',
      'low, likely and high in rising order',
      'Put them in order; a blank likely is the figure as it stands.',
    );
  if (high !== undefined && high < likely)
    return at(
      'high',
      form === 'uniform'
        ? 'High is less than low.'
        : given
          ? 'High is less than likely.'
          : 'High is less than the figure as it stands.',
      'low, likely and high in rising order',
      'Put them in order; a blank likely is the figure as it stands.',
    );
  if (form === 'triangular' || form === 'uniform') {
    if (low === undefined || high === undefined || low === high)
      return at(
        low === undefined ? 'low' : 'high',
        `A ${form} range needs two ends.`,
        'low and high that differ',
        'Give both, or choose normal with spread_percent.',
      );
    if (spread !== undefined)
      return at(
        'spread_percent',
        `A ${form} range goes by its ends.`,
        'blank',
        'Leave spread_percent blank, or choose normal or lognormal.',
      );
    const shape: Shape =
      form === 'uniform'
        ? { form, least: low, greatest: high }
        : { form, least: low, likely, greatest: high };
    return { input, mover, of: how, shape };
  }
  if (spread !== undefined && (low !== undefined || high !== undefined))
    return at(
      'spread_percent',
      'The spread is given twice: by its ends, and as a standard deviation.',
      'low and high, or spread_percent',
      'Leave one of them blank.',
    );
  if (
    spread === undefined &&
    (low === undefined || low === likely) &&
    (high === undefined || high === likely)
  )
    return at(
      'low',
      `A ${form} range needs a spread.`,
      'low, high or both, or spread_percent',
      'Say how far it may be off.',
    );
  return form === 'normal'
    ? asNormal(input, mover, how, { low, likely, high, spread })
    : asLognormal(input, mover, how, { low, likely, high, spread });
}

function asNormal(
  input: string,
  mover: Mover,
  how: Alteration['how'],
  { low, likely, high, spread }: Omit<Sizes, 'given'>,
): UncertainInput | RangeFault {
  if (spread !== undefined) {
    if (how === 'amount')
      return at(
        'spread_percent',
        'A share of an amount that is added says nothing of the figure.',
        'low and high',
        'Give low and high.',
      );
    const deviation = spread * Math.abs(how === 'percent' ? 1 + likely : likely);
    return {
      input,
      mover,
      of: how,
      shape: { form: 'normal', middle: likely, below: deviation, above: deviation },
    };
  }
  const below = (likely - (low ?? likely)) / oneInTwenty;
  const above = ((high ?? likely) - likely) / oneInTwenty;
  return {
    input,
    mover,
    of: how,
    shape: {
      form: 'normal',
      middle: likely,
      below: low === undefined ? above : below,
      above: high === undefined ? below : above,
    },
  };
}

/** Of a change in per cents it is the factor on the figure that is lognormal. */
function asLognormal(
  input: string,
  mover: Mover,
  how: Alteration['how'],
  { low, likely, high, spread }: Omit<Sizes, 'given'>,
): UncertainInput | RangeFault {
  if (how === 'amount')
    return at(
      'shape',
      'What is added may be less than nothing, so it is not lognormal.',
      'normal, triangular or uniform',
      'Give figures or per cents, or choose another shape.',
    );
  const shift = how === 'percent' ? 1 : 0;
  const middle = likely + shift;
  if (!(middle > 0) || (low !== undefined && !(low + shift > 0)))
    return at(
      'low',
      'A lognormal figure is above zero.',
      'figures above zero',
      'Give other figures, or choose another shape.',
    );
  const of = how === 'percent' ? 'factor' : 'value';
  if (spread !== undefined) {
    const deviation = Math.sqrt(Math.log1p(spread ** 2));
    return { input, mover, of, shape: { form: 'lognormal', middle, below: deviation, above: deviation } };
  }
  const below = Math.log(middle / ((low ?? likely) + shift)) / oneInTwenty;
  const above = Math.log(((high ?? likely) + shift) / middle) / oneInTwenty;
  return {
    input,
    mover,
    of,
    shape: {
      form: 'lognormal',
      middle,
      below: low === undefined ? above : below,
      above: high === undefined ? below : above,
    },
  };
}
