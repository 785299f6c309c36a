import { parseNumber } from './book/measures/numberText.ts';
import { hasErrors, type Problem } from './book/problems/problem.ts';
import type { CellPlace } from './calc/program/compileProgram.ts';
import type { Source } from './priceBook.ts';
import { sampledInputs } from './sampledInputs.ts';
import {
  asked,
  type PriceRule,
  resultNamed,
  resultsNamed,
  type Swept,
  type SweptBook,
  sweptBook,
  usualResult,
} from './sweptBook.ts';
import { findMover, type Mover } from './whatif/mover.ts';
import { readRanges } from './whatif/sweeps/ranges.ts';
import { type SensitivityLine, sensitivityOf, type TriedInput } from './whatif/sweeps/sensitivity.ts';
import { readSteps, type Steps } from './whatif/sweeps/steps.ts';
import { type SweepTable, sweepTable } from './whatif/sweeps/sweepTable.ts';
import { endsOf } from './whatif/sweeps/uncertain.ts';
import { isFault } from './whatif/words/findInputs.ts';
import type { FoundResult } from './whatif/words/findResults.ts';
import { inputGroups } from './whatif/words/inputGroups.ts';

export interface SensitivityQuestion {
  /** The result, in a maker's words or by its cell; the month's profit where absent. */
  readonly of?: string | CellPlace;
  readonly prices: PriceRule;
  /** The common range, `10 %`. Absent: ten per cent, and its own for what ranges.csv names. */
  readonly range?: string;
  /** Only these inputs; all that matter where empty. */
  readonly inputs: readonly string[];
}

/** Inputs ranked by what they do to one result: the data of a tornado chart. */
export interface SensitivityReport {
  readonly workshop: string;
  readonly currency: string;
  readonly result: FoundResult;
  readonly prices: PriceRule;
  /** The common range as a ratio. */
  readonly range: number;
  readonly today: number;
  readonly lines: readonly SensitivityLine[];
  /** Inputs that move the result nowhere within their range. */
  readonly still: readonly string[];
}

const usualRange = 0.1;

/** Every input down and up by itself, ranked by what it does to a result. */
export function sensitivityBook(source: Source, question: SensitivityQuestion): Swept<SensitivityReport> {
  const { priced, swept } = sweptBook(source, question.prices);
  if (swept === undefined) return { problems: priced.problems, priced };
  const problems: Problem[] = [...priced.problems];
  const result = question.of === undefined ? usualResult(swept) : resultNamed(question.of, swept);
  if (isFault(result)) problems.push(asked(typeof question.of === 'string' ? question.of : '', result));
  const range = rangeOf(question.range, swept, problems);
  const only = question.inputs.flatMap((text): Mover[] => {
    const mover = findMover(text, swept.plan);
    if (!isFault(mover)) return [mover];
    problems.push(asked(text, mover));
    return [];
  });
  const own = question.range === undefined ? ownRanges(swept, problems) : [];
  if (isFault(result) || hasErrors(problems)) return { problems, priced };
  const common = (only.length > 0 ? only : inputGroups(swept.plan)).map(
    (mover): TriedInput => ({
      mover,
      low: { how: 'percent', by: -range },
      high: { how: 'percent', by: range },
      from: 'range',
    }),
  );
  const wanted = (each: TriedInput): boolean =>
    only.length === 0 || only.some((mover) => sameCells(mover, each.mover));
  const tried = [...own.filter(wanted), ...common];
  const { plan, values } = swept;
  return {
    problems,
    priced,
    report: {
      workshop: plan.settings.workshop,
      currency: plan.settings.currency,
      result,
      prices: question.prices,
      range,
      ...sensitivityOf(plan, values, result, tried),
    },
  };
}

function sameCells(one: Mover, other: Mover): boolean {
  const names = (mover: Mover): string => JSON.stringify(mover.cells);
  return names(one) === names(other);
}

function rangeOf(text: string | undefined, { plan }: SweptBook, problems: Problem[]): number {
  if (text === undefined) return usualRange;
  const bare = /^[±+]?(.+?)\s*%?$/.exec(text.trim())?.[1] ?? '';
  const number = parseNumber(bare, plan.settings.decimal);
  if (number !== undefined && number > 0 && number < 100) return number / 100;
  problems.push(
    asked(text, {
      message: `“${text}” is no range.`,
      accepted: 'a share such as 10 %, more than nothing and less than 100 %',
      mend: 'Write --range "10 %".',
    }),
  );
  return usualRange;
}

function ownRanges(book: SweptBook, problems: Problem[]): readonly TriedInput[] {
  const read = readRanges(book.plan);
  const sampled = sampledInputs(book.priced, book.plan, read.ranges.sampled);
  problems.push(...read.problems, ...sampled.problems);
  return [...read.ranges.inputs, ...sampled.inputs].map((each) => ({
    mover: each.mover,
    ...endsOf(each),
    from: 'ranges.csv',
  }));
}

export interface TableQuestion {
  /** Results, in a maker's words; the month's profit where empty. */
  readonly of: readonly string[];
  readonly prices: PriceRule;
  /** `wage = 18..30 by 2` */
  readonly across: string;
  readonly down?: string;
}

export interface SweepTableReport extends SweepTable {
  readonly workshop: string;
  readonly currency: string;
  readonly prices: PriceRule;
}

/** Results over the steps of one input or two. */
export function sweepTableBook(source: Source, question: TableQuestion): Swept<SweepTableReport> {
  const { priced, swept } = sweptBook(source, question.prices);
  if (swept === undefined) return { problems: priced.problems, priced };
  const problems: Problem[] = [...priced.problems];
  const results = question.of.flatMap((text): readonly FoundResult[] => {
    const found = resultsNamed(text, swept);
    if (!isFault(found)) return found;
    problems.push(asked(text, found));
    return [];
  });
  if (question.of.length === 0) {
    const usual = usualResult(swept);
    if (isFault(usual)) problems.push(asked('', usual));
    else results.push(usual);
  }
  const read = (text: string): Steps | undefined => {
    const steps = readSteps(text, swept.plan);
    if (!isFault(steps)) return steps;
    problems.push(asked(text, steps));
    return undefined;
  };
  const across = read(question.across);
  const down = question.down === undefined ? undefined : read(question.down);
  if (across === undefined || hasErrors(problems)) return { problems, priced };
  const { plan, values } = swept;
  return {
    problems,
    priced,
    report: {
      workshop: plan.settings.workshop,
      currency: plan.settings.currency,
      prices: question.prices,
      ...sweepTable(plan, values, results, across, down),
    },
  };
}
