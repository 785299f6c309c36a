import type { Values } from '../../calc/values.ts';
import type { Plan } from '../../sheets/plan.ts';
import type { FoundResult } from '../words/findResults.ts';
import type { Steps } from './steps.ts';
import { Sweep } from './sweep.ts';

/** Results over the steps of one input, or of two. */
export interface SweepTable {
  readonly across: { readonly input: string; readonly steps: readonly string[] };
  /** One step without a name where only one input moves. */
  readonly down: { readonly input: string; readonly steps: readonly string[] } | null;
  readonly results: readonly {
    readonly result: FoundResult;
    readonly today: number;
    /** Rows by the steps down, columns by those across; null where it cannot be calculated. */
    readonly rows: readonly (readonly (number | null)[])[];
  }[];
}

/** Works out every field of a table; the second input is moved upon the first. */
export function sweepTable(
  plan: Plan,
  values: Values,
  results: readonly FoundResult[],
  across: Steps,
  down?: Steps,
): SweepTable {
  const movers = [across.mover, ...(down === undefined ? [] : [down.mover])];
  const sweep = new Sweep(plan, values, movers, results);
  const rows = (down?.steps ?? [undefined]).map((second) =>
    across.steps.map((first) =>
      sweep.at([
        { mover: across.mover, alteration: first.alteration },
        ...(down === undefined || second === undefined
          ? []
          : [{ mover: down.mover, alteration: second.alteration }]),
      ]),
    ),
  );
  const told = ({ mover, steps }: Steps) => ({ input: mover.name, steps: steps.map(({ text }) => text) });
  return {
    across: told(across),
    down: down === undefined ? null : told(down),
    results: results.map((result, at) => ({
      result,
      today: values.number(result.sheet, result.column, result.row),
      rows: rows.map((row) =>
        row.map((cell) => {
          const value = cell?.[at] ?? Number.NaN;
          return Number.isFinite(value) ? value : null;
        }),
      ),
    })),
  };
}
