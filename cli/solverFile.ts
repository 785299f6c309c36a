import { existsSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Solver } from '../engine/index.ts';

/**
 * Loads the solver; a tenth of a second that only cutting and the best mix need. Its code lies beside the built program, and
 * in the package it comes from where the sources run.
 */
export async function solverFromFile(): Promise<Solver> {
  const built = join(dirname(fileURLToPath(import.meta.url)), 'highs.wasm');
  const file = existsSync(built) ? built : createRequire(import.meta.url).resolve('highs/runtime');
  const { loadSolver } = await import('../engine/solver/loadSolver.ts');
  return loadSolver(readFileSync(file));
}
