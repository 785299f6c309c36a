/** What cutting and the best mix ask of a solver of linear and integer programs (to be made as small as possible). */
export interface Solver {
  model(): SolverModel;
}

export interface SolverColumn {
  readonly cost: number;
  /** The largest value allowed; without limit where it is infinite. The least is zero. */
  readonly most: number;
  readonly integer: boolean;
  /** Coefficients by row. */
  readonly entries: readonly (readonly [row: number, factor: number])[];
}

export interface SolverAnswer {
  /** False where no values were found in the time given. */
  readonly solved: boolean;
  /** True where nothing better is left to find in this model. */
  readonly optimal: boolean;
  readonly cost: number;
  readonly columns: Float64Array;
  /** Price of each row; of no meaning where a column is integer. */
  readonly duals: Float64Array;
}

export interface SolverModel {
  addRow(least: number, most: number): void;
  addColumn(column: SolverColumn): void;
  /** @param enough stop as soon as a cost is no higher; @param step no two costs differ by less */
  solve(limits?: { readonly seconds: number; readonly enough: number; readonly step: number }): SolverAnswer;
  /** Gives the memory back; the model must not be used again. */
  dispose(): void;
}
