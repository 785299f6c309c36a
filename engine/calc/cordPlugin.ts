import {
  CellError,
  ErrorType,
  FunctionArgumentType,
  FunctionPlugin,
  HyperFormula,
  type ImplementedFunctions,
} from 'hyperformula';
import { cordFunctions } from '../cord/index.ts';

type RunFunction = FunctionPlugin['runFunction'];
type FormulaCall = { readonly args: Parameters<RunFunction>[0]; readonly procedureName: string };

const byName = new Map(cordFunctions.map((each) => [each.name, each]));

class CordFunctions extends FunctionPlugin {
  static override implementedFunctions: ImplementedFunctions = Object.fromEntries(
    cordFunctions.map((each) => [
      each.name,
      { method: 'cord', parameters: each.args.map(() => ({ argumentType: FunctionArgumentType.NUMBER })) },
    ]),
  );

  cord(call: FormulaCall, state: Parameters<RunFunction>[1]): ReturnType<RunFunction> {
    const cord = byName.get(call.procedureName);
    return this.runFunction(call.args, state, this.metadata(call.procedureName), (...args: number[]) => {
      // An exception in a plugin would spoil every later read of the whole engine, so none may leave.
      try {
        const length = cord?.compute(...args) ?? Number.NaN;
        return Number.isFinite(length)
          ? length
          : new CellError(ErrorType.NUM, 'Outside what the function is for');
      } catch {
        return new CellError(ErrorType.NUM, `${call.procedureName} failed`);
      }
    });
  }
}

/** Makes the cord functions known to every engine built afterwards. May be called any number of times. */
export function registerCords(): void {
  const names = cordFunctions.map((each) => each.name);
  if (names.every((name) => HyperFormula.getFunctionPlugin(name) === CordFunctions)) return;
  HyperFormula.registerFunctionPlugin(CordFunctions, {
    enGB: Object.fromEntries(names.map((name) => [name, name])),
  });
}
