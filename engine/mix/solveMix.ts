import type { Solver, SolverAnswer } from '../solver/solver.ts';
import { contributionOf, type MixSolution, type MixTask, takenOf } from './mixTask.ts';
import { verifyMix } from './verifyMix.ts';

/**
 * The mix that contributes most, in fractions of a piece, by a linear program; verified before it is returned.
 *
 * @param task one that `impossible` finds nothing wrong with
 * @throws where the solver's answer does not hold
 */
export function solveMix(task: MixTask, solver: Solver): MixSolution {
  const answer = solved(task, solver, false);
  if (!answer.optimal) throw new Error('The solver found no best mix of a task that has one');
  const pieces = task.items.map(({ atLeast, atMost }, at) =>
    tidy(Math.min(atMost, atLeast + Math.max(0, answer.columns[at]!))),
  );
  // The solver makes costs as small as possible, so the price of a limit comes with the other sign.
  const worth = task.limits.map((_, row) => Math.max(0, -answer.duals[row]!));
  const reduced = task.items.map(
    ({ contributionEach }, at) =>
      contributionEach -
      task.limits.reduce((sum, limit, row) => sum + worth[row]! * limit.takenByEach[at]!, 0),
  );
  const solution = { pieces, contribution: contributionOf(task.items, pieces), worth, reduced };
  verifyMix(task, solution);
  return solution;
}

/** The best mix in whole pieces. */
export interface WholeMix {
  readonly pieces: readonly number[];
  readonly contribution: number;
  /** True where no other whole mix contributes a coin more. */
  readonly proven: boolean;
}

/**
 * The best mix in whole pieces, by an integer program.
 *
 * @param ceiling contribution of the mix in fractions: no whole mix can have more
 * @param coin the smallest coin, in the currency
 * @returns undefined where promises or limits are fractions and leave no whole number between them
 */
export function solveWholeMix(
  task: MixTask,
  solver: Solver,
  ceiling: number,
  coin: number,
): WholeMix | undefined {
  const items = task.items.map((item) => ({
    ...item,
    atLeast: Math.ceil(item.atLeast - 1e-9),
    atMost: Math.floor(item.atMost + 1e-9),
  }));
  const whole = { ...task, items };
  const promised = items.map(({ atLeast }) => atLeast);
  if (items.some(({ atLeast, atMost }) => atLeast > atMost)) return undefined;
  if (task.limits.some((limit) => takenOf(limit, promised) > roomOf(limit.available))) return undefined;
  const answer = solved(whole, solver, true, { seconds: 10, enough: -ceiling, step: coin });
  if (!answer.solved) throw new Error('The solver found no whole mix of a task that has one');
  const pieces = items.map(({ atLeast }, at) => atLeast + Math.round(answer.columns[at]!));
  const found = contributionOf(items, pieces);
  const fits =
    task.limits.every((limit) => takenOf(limit, pieces) <= roomOf(limit.available)) &&
    items.every(({ atLeast, atMost }, at) => pieces[at]! >= atLeast && pieces[at]! <= atMost);
  if (!fits || found > ceiling + 1e-6 * Math.max(1, Math.abs(ceiling)))
    throw new Error('The whole mix that the solver found breaks a limit');
  return { pieces, contribution: found, proven: answer.optimal || ceiling - found < coin };
}

/** A solver's own tolerance, past which a limit counts as broken. */
function roomOf(available: number): number {
  return available + 1e-6 * Math.max(1, available);
}

function solved(
  task: MixTask,
  solver: Solver,
  integer: boolean,
  limits?: { readonly seconds: number; readonly enough: number; readonly step: number },
): SolverAnswer {
  const model = solver.model();
  try {
    // Promised pieces are made in any case: the program looks for what comes on top of them.
    const promised = task.items.map(({ atLeast }) => atLeast);
    for (const limit of task.limits)
      model.addRow(Number.NEGATIVE_INFINITY, Math.max(0, limit.available - takenOf(limit, promised)));
    task.items.forEach(({ contributionEach, atLeast, atMost }, at) => {
      model.addColumn({
        cost: -contributionEach,
        most: atMost - atLeast,
        integer,
        entries: task.limits.flatMap(({ takenByEach }, row): [number, number][] =>
          takenByEach[at]! === 0 ? [] : [[row, takenByEach[at]!]],
        ),
      });
    });
    const base = contributionOf(task.items, promised);
    return model.solve(limits === undefined ? undefined : { ...limits, enough: limits.enough + base });
  } finally {
    model.dispose();
  }
}

/** A number of pieces without the dust of the solver: 59,999.9999999 is 60,000. */
function tidy(pieces: number): number {
  const whole = Math.round(pieces);
  return Math.abs(pieces - whole) <= 1e-7 * Math.max(1, whole) ? whole : pieces;
}
