import type { LengthUnit } from './measures/measure.ts';
import type { ProblemCode } from './problems/problem.ts';

/** The unit that a cell was written with: of length, or pieces; of a weight, whether it is that of a length. */
export type WrittenUnit = LengthUnit | 'pieces' | 'by length';

/** A cell that was read, or what is wrong with it. */
export type CellReading =
  | { readonly value: number | string; readonly unit?: WrittenUnit; readonly watch?: CellFault }
  | { readonly fault: CellFault };

export interface CellFault {
  readonly code: ProblemCode;
  readonly message: string;
  readonly accepted: string;
  readonly mend: string;
}

/** A cell that cannot be read, in the words of its problem. */
export function fault(code: ProblemCode, message: string, accepted: string, mend: string): CellReading {
  return { fault: { code, message, accepted, mend } };
}
