import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { loadSolver } from '../../engine/solver/loadSolver.ts';
import type { Solver } from '../../engine/solver/solver.ts';
import type { LoadedSolver } from '../../library/index.ts';

/** One solver a test file: loading takes a tenth of a second. */
export const solver: Solver = await loadSolver(
  readFileSync(createRequire(import.meta.url).resolve('highs/runtime')),
);

/** The same, as the library hands it out. */
export const loadedSolver: LoadedSolver = solver as unknown as LoadedSolver;
