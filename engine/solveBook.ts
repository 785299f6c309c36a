import { hasErrors, type Problem } from './book/problems/problem.ts';
import { type NewFinding, newFindings } from './newFindings.ts';
import type { Source } from './priceBook.ts';
import { asked, type PriceRule, type Swept, type SweptBook, sweptBook } from './sweptBook.ts';
import { moveText } from './whatif/alterations.ts';
import { findMover, type Mover } from './whatif/mover.ts';
import { type Answer, boundsOf, type Solved, type SolvedPoint, solve } from './whatif/sweeps/solve.ts';
import { isFault } from './whatif/words/findInputs.ts';
import type { FoundResult } from './whatif/words/findResults.ts';
import { readGoal, type SolveGoal } from './whatif/words/goal.ts';

export interface SolveQuestion {
  readonly vary: string;
  /** `margin of fob short at stall = 40 %` */
  readonly until: string;
  readonly from?: string;
  readonly to?: string;
  readonly prices: PriceRule;
}

/** An answer, put back into the book and priced anew. */
export type CheckedAnswer = Answer & { readonly checks: readonly AnswerCheck[] };

export interface AnswerCheck {
  /** The figure or change that was put in. */
  readonly text: string;
  readonly result: number;
  readonly wanted: number;
  /** Result less what is wanted, by the whole path anew. */
  readonly residual: number;
  /** What the book has to say then, where today's does not. */
  readonly findings: readonly NewFinding[];
}

export interface SolveReport extends Omit<Solved, 'answers'> {
  readonly workshop: string;
  readonly currency: string;
  readonly prices: PriceRule;
  readonly input: string;
  readonly cells: number;
  /** Figure today; empty where the input is several cells, which move by per cents. */
  readonly today: string;
  readonly result: FoundResult;
  readonly resultToday: number;
  /** `40 %`, or the name of the other result. */
  readonly wanted: string;
  readonly isOther: boolean;
  readonly answers: readonly CheckedAnswer[];
}

/** Finds the figure of an input at which a result becomes what is wanted. */
export function solveBook(source: Source, question: SolveQuestion): Swept<SolveReport> {
  const { priced, swept } = sweptBook(source, question.prices);
  if (swept === undefined) return { problems: priced.problems, priced };
  const problems: Problem[] = [...priced.problems];
  const { plan, values } = swept;
  const mover = findMover(question.vary, plan);
  if (isFault(mover)) problems.push(asked(question.vary, mover));
  const goal = readGoal(question.until, plan);
  if (isFault(goal)) problems.push(asked(question.until, goal));
  if (isFault(mover) || isFault(goal)) return { problems, priced };
  const bounds = boundsOf(mover, question.from, question.to, plan);
  if (isFault(bounds)) problems.push(asked([question.from, question.to].join(' '), bounds));
  if (isFault(bounds) || hasErrors(problems)) return { problems, priced };
  const solved = solve(plan, values, mover, goal, bounds);
  const [only] = mover.before;
  return {
    problems,
    priced,
    report: {
      workshop: plan.settings.workshop,
      currency: plan.settings.currency,
      prices: question.prices,
      input: mover.name,
      cells: mover.cells.length,
      today:
        bounds.single && typeof only === 'number' ? moveText(mover, { how: 'value', value: only }, plan) : '',
      result: goal.result,
      resultToday: values.number(goal.result.sheet, goal.result.column, goal.result.row),
      wanted: goal.text,
      isOther: typeof goal.wanted !== 'number',
      ...solved,
      answers: solved.answers.map((each) => ({
        ...each,
        checks: pointsOf(each).map((point) => check(point, mover, goal, swept)),
      })),
    },
  };
}

function pointsOf(answer: Answer): readonly SolvedPoint[] {
  switch (answer.how) {
    case 'exact':
      return [answer.point];
    case 'between':
      return [answer.from, answer.to];
    case 'step':
      return [answer.atMost, answer.atLeast];
  }
}

/** Nothing of the sweep is used here but the input that it found. */
function check(
  { text, alteration }: SolvedPoint,
  mover: Mover,
  { result, wanted }: SolveGoal,
  { plan, values, priceWith, priced }: SweptBook,
): AnswerCheck {
  const again = priceWith(mover, alteration);
  const figure = ({ sheet, column, row }: FoundResult): number => {
    const value = again.values?.get(sheet, column, row);
    return typeof value === 'number' ? value : Number.NaN;
  };
  const reached = figure(result);
  const goal = typeof wanted === 'number' ? wanted : figure(wanted);
  return {
    text,
    result: reached,
    wanted: goal,
    residual: reached - goal,
    findings: newFindings(again, { plan, values, problems: priced.problems }),
  };
}
