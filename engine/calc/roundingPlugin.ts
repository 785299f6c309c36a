import {
  CellError,
  ErrorType,
  FunctionArgumentType,
  type FunctionMetadata,
  FunctionPlugin,
  HyperFormula,
  type ImplementedFunctions,
} from 'hyperformula';
import { type Rounded, roundingRules } from './roundingRules.ts';

/*
 * Our rounding family in the place of HyperFormula's, whose binary scaling misses ties (ROUND(1.005, 2) is 1
 * there) and near-whole numbers (INT(0.29 * 100) is 28). What a sheet computes must be what a spreadsheet
 * program computes again from the exported workbook; `engine/money/rounding.ts` tells how that was measured.
 */

// HyperFormula does not export the types of a plugin method's arguments; its own signature names them.
type RunFunction = FunctionPlugin['runFunction'];
type FormulaCall = { readonly args: Parameters<RunFunction>[0] };
type CallState = Parameters<RunFunction>[1];
type CallResult = ReturnType<RunFunction>;

const NUMBER = { argumentType: FunctionArgumentType.NUMBER };
const DIGITS = { argumentType: FunctionArgumentType.NUMBER, defaultValue: 0 };

function resultOf(rounded: Rounded): number | CellError {
  if (rounded === 'divide') return new CellError(ErrorType.DIV_BY_ZERO);
  if (rounded === 'number') return new CellError(ErrorType.NUM, 'The step must have the sign of the number');
  return rounded;
}

const functionMetadata = (...parameters: FunctionMetadata['parameters'] & object): FunctionMetadata => ({
  method: 'rounded',
  parameters,
});

class RoundingFamily extends FunctionPlugin {
  static override implementedFunctions: ImplementedFunctions = {
    ROUND: functionMetadata(NUMBER, DIGITS),
    ROUNDUP: functionMetadata(NUMBER, DIGITS),
    ROUNDDOWN: functionMetadata(NUMBER, DIGITS),
    TRUNC: functionMetadata(NUMBER, DIGITS),
    INT: functionMetadata(NUMBER),
    MOD: functionMetadata(NUMBER, NUMBER),
    CEILING: functionMetadata(NUMBER, NUMBER),
    FLOOR: functionMetadata(NUMBER, NUMBER),
    MROUND: functionMetadata(NUMBER, NUMBER),
  };

  rounded(call: FormulaCall & { readonly procedureName: string }, state: CallState): CallResult {
    const name = call.procedureName;
    return this.runFunction(call.args, state, this.metadata(name), (x: number, second: number) => {
      // An exception in a plugin would spoil every later read of the whole engine, so none may leave.
      try {
        const result = resultOf(roundingRules[name]?.(x, second) ?? Number.NaN);
        return typeof result === 'number' && !Number.isFinite(result) ? new CellError(ErrorType.NUM) : result;
      } catch {
        return new CellError(ErrorType.NUM, `${name} failed`);
      }
    });
  }
}

/**
 * Puts our rounding family in the place of HyperFormula's, for every engine built afterwards in this process.
 * May be called any number of times. (An engine takes its functions at the build, the last registration of a
 * name wins, and the translations of these names are HyperFormula's own.)
 */
export function registerRounding(): void {
  const ours = Object.keys(RoundingFamily.implementedFunctions);
  if (ours.every((name) => HyperFormula.getFunctionPlugin(name) === RoundingFamily)) return;
  HyperFormula.registerFunctionPlugin(RoundingFamily);
}
