import loadHighs from 'highs';
import type { Solver, SolverModel } from './solver.ts';

/** The package's types are those of its CommonJS build; the module that is loaded exports the function itself. */
const load = loadHighs as unknown as typeof loadHighs.default;

/**
 * The one door to the solver (HiGHS, compiled to WebAssembly).
 *
 * @param wasm the bytes of `highs.wasm`: the engine reads no files, so the caller does
 */
export async function loadSolver(wasm: Uint8Array): Promise<Solver> {
  const highs = await load({ wasmBinary: wasm });
  return {
    model(): SolverModel {
      const model = highs.createModel();
      const { modelStatus, variableType } = highs.constants;
      const finite = (value: number): number => (value === Number.POSITIVE_INFINITY ? highs.infinity : value);
      // A fixed seed: the same question gives the same plan.
      model.options.set({ output_flag: false, random_seed: 1 });
      let columns = 0;
      return {
        addRow: (least, most) => {
          model.addRow(least, finite(most), { indices: [], values: [] });
        },
        addColumn: ({ cost, most, integer, entries }) => {
          model.addCol(cost, 0, finite(most), {
            indices: entries.map(([row]) => row),
            values: entries.map(([, factor]) => factor),
          });
          if (integer) model.changeColIntegrality(columns, variableType.integer);
          columns += 1;
        },
        solve: (limits) => {
          if (limits !== undefined) {
            // The clock of a model runs on from run to run.
            model.zeroAllClocks();
            model.options.set({
              time_limit: limits.seconds,
              mip_rel_gap: 0,
              mip_abs_gap: limits.step * 0.99,
              objective_target: limits.enough,
            });
          }
          if (!ran(model))
            return {
              solved: false,
              optimal: false,
              cost: Number.POSITIVE_INFINITY,
              columns: new Float64Array(),
              duals: new Float64Array(),
            };
          const status = model.getModelStatus();
          const solved = model.info.get('primal_solution_status') === 2;
          const { colValue, rowDual } = model.getSolution();
          return {
            solved,
            optimal: status === modelStatus.optimal,
            cost: solved ? model.getObjectiveValue() : Number.POSITIVE_INFINITY,
            columns: colValue,
            duals: rowDual,
          };
        },
        dispose: () => model.dispose(),
      };
    },
  };
}

/** Runs the solver; where it stumbles, once more from the beginning. False where it still does not come through. */
function ran(model: { run: () => unknown; clearSolver: () => unknown }): boolean {
  for (const attempt of [1, 2]) {
    try {
      model.run();
      return true;
    } catch {
      if (attempt === 1) model.clearSolver();
    }
  }
  return false;
}
