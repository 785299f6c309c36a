import type { Solver } from '../engine/index.ts';

declare const loaded: unique symbol;

/** The solver, loaded: only to be handed to `planCutting`. */
export interface LoadedSolver {
  readonly [loaded]: true;
}

/**
 * Loads the solver of linear and integer programs that `planCutting` asks.
 *
 * @param wasm the bytes of `sennit/highs.wasm`: a page fetches them, Node reads them (`shippedSolver` of `sennit/node`)
 */
export async function loadSolver(wasm: Uint8Array): Promise<LoadedSolver> {
  // Loaded here and not at the start: no other question needs it.
  const solver = await import('../engine/solver/loadSolver.ts');
  return (await solver.loadSolver(wasm)) as unknown as LoadedSolver;
}

/** How a program asks it is the engine's affair, so callers are not shown. */
export function solverIn(solver: LoadedSolver): Solver {
  return solver as unknown as Solver;
}
