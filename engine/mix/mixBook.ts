import { type Problem, problem } from '../book/problems/problem.ts';
import type { Values } from '../calc/values.ts';
import type { Plan } from '../sheets/plan.ts';
import type { Solver } from '../solver/solver.ts';
import { impossible } from './impossible.ts';
import type { MixLimitReport, MixReport, MixRow, MixTotal } from './mixReport.ts';
import { type MixSolution, type MixTask, takenOf } from './mixTask.ts';
import { type MixOptions, readMixTask } from './readMixTask.ts';
import { solveMix, solveWholeMix, type WholeMix } from './solveMix.ts';

/** The best mix, or why there is none. */
export interface MixAnswer {
  readonly problems: readonly Problem[];
  readonly report?: MixReport;
}

/**
 * From a calculated book: which pieces of which product for which channel bring the most contribution in a month,
 * with the bench hours that there are, and what more of each limit would be worth. Labour is a part of every piece's
 * variable cost, so the worth of an hour is what it brings over and above its wage.
 *
 * @throws where an answer of the solver does not hold
 */
export function mixBook(plan: Plan, values: Values, solver: Solver, options: MixOptions = {}): MixAnswer {
  const task = readMixTask(plan, values, options);
  if (task.items.length === 0) return { problems: [nothingToMix()] };
  const problems = impossible(task, plan.settings);
  if (problems.length > 0) return { problems };
  const solution = solveMix(task, solver);
  const whole = solveWholeMix(task, solver, solution.contribution, 1 / 10 ** plan.settings.currencyDigits);
  const overheadPerMonth = values.number('rates', 'overhead_per_month', 0);
  const total = (mix: { readonly pieces: readonly number[]; readonly contribution: number }): MixTotal => ({
    contribution: mix.contribution,
    profit: mix.contribution - overheadPerMonth,
    benchHours: takenOf(task.limits[0]!, mix.pieces),
  });
  return {
    problems: [],
    report: {
      workshop: plan.settings.workshop,
      currency: plan.settings.currency,
      overheadPerMonth,
      labourPerHour: values.number('rates', 'labour_per_hour', 0),
      rows: task.items.map((_, at) => rowOf(task, solution, whole, at)),
      limits: task.limits.map((_, at) => limitOf(task, solution, whole, at, solver)),
      best: total(solution),
      bestWhole: whole === undefined ? null : { ...total(whole), proven: whole.proven },
      expected: plan.sheets.some(({ id }) => id === 'month')
        ? {
            contribution: values.number('month', 'contribution', 0),
            profit: values.number('month', 'profit', 0),
            benchHours: values.number('month', 'bench_hours', 0),
          }
        : null,
    },
  };
}

function nothingToMix(): Problem {
  return problem(
    'file-missing',
    { file: 'sales_mix.csv' },
    'There is no table sales_mix.csv, or it has no rows, so nothing says what could sell.',
    {
      accepted:
        'a table with the headings product, channel, pieces_per_month, and if you like at_least and at_most',
      mend: 'Add it, or take every product in every channel with --all.',
    },
  );
}

function rowOf(task: MixTask, solution: MixSolution, whole: WholeMix | undefined, at: number): MixRow {
  const item = task.items[at]!;
  const best = solution.pieces[at]!;
  const reduced = withoutDust(solution.reduced[at]!, item.contributionEach);
  const { product, channel, contributionEach, hoursEach, expected, atLeast, atMost } = item;
  return {
    product,
    channel,
    contributionEach,
    benchHoursEach: hoursEach,
    expected,
    atLeast,
    atMost: atMost === Number.POSITIVE_INFINITY ? null : atMost,
    best,
    bestWhole: whole?.pieces[at] ?? null,
    reducedWorth: reduced,
    worthOfOneMoreSold: best === atMost ? Math.max(0, reduced) : 0,
    worthOfOneLessPromised: best === atLeast && atLeast > 0 ? Math.max(0, -reduced) : 0,
  };
}

function limitOf(
  task: MixTask,
  solution: MixSolution,
  whole: WholeMix | undefined,
  at: number,
  solver: Solver,
): MixLimitReport {
  const limit = task.limits[at]!;
  const { kind, name, unit, available } = limit;
  const worthEach = solution.worth[at]!;
  // Where nothing hangs on a limit, more of it brings nothing; otherwise the one unit is tried.
  const more =
    worthEach > 0
      ? solveMix(
          {
            ...task,
            limits: task.limits.map((each) =>
              each === limit ? { ...each, available: available + 1 } : each,
            ),
          },
          solver,
        ).contribution - solution.contribution
      : 0;
  return {
    kind,
    name,
    unit,
    available,
    taken: takenOf(limit, solution.pieces),
    takenWhole: whole === undefined ? null : takenOf(limit, whole.pieces),
    worthEach,
    worthOfOneMore: Math.max(0, withoutDust(more, solution.contribution)),
  };
}

/** A difference of figures of that size, without what floating point leaves of nothing. */
function withoutDust(value: number, size: number): number {
  return Math.abs(value) <= 1e-9 * Math.max(1, Math.abs(size)) ? 0 : value;
}
