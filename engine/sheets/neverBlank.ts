import { roleOf } from './bookSchema.ts';
import type { ColumnDefinition, SheetDefinition } from './definition.ts';
import type { Expression } from './expression.ts';

/**
 * A formula that only passes a cell on gives 0 in a spreadsheet program where that cell is blank, but stays
 * blank in the calculation engine, and ISNUMBER of it differs from there on. Such a formula is completed
 * here, so that it says the same everywhere: a blank number is 0, a blank text is empty.
 *
 * Names of rows are left alone: what they lead to must stay known before anything is calculated, and rows
 * without one are dropped.
 */
export function neverBlank(
  formula: Expression,
  column: ColumnDefinition,
  sheets: ReadonlyMap<string, SheetDefinition>,
): Expression {
  if (column.kind === 'ref' || column.kind === 'key' || !mayBeBlank(formula, sheets)) return formula;
  const text = column.kind === undefined || ['text', 'choice', 'yes_no', 'formula'].includes(column.kind);
  return text
    ? { kind: 'binary', operator: '&', left: formula, right: { kind: 'text', value: '' } }
    : { kind: 'binary', operator: '+', left: formula, right: { kind: 'number', value: 0 } };
}

function mayBeBlank(formula: Expression, sheets: ReadonlyMap<string, SheetDefinition>): boolean {
  if (formula.kind === 'reference') {
    const { to } = formula;
    const definition = sheets.get(to.sheet);
    const column = definition?.columns.find((each) => each.id === to.column);
    if (definition === undefined || column === undefined) return false;
    return ['input', 'override', 'made'].includes(roleOf(column, definition));
  }
  if (formula.kind !== 'call') return false;
  const passed = (
    { IF: [1, 2], IFERROR: [0, 1], IFNA: [0, 1] } as Readonly<Record<string, readonly number[]>>
  )[formula.name];
  const through =
    formula.name === 'SWITCH'
      ? formula.args.slice(1)
      : (passed ?? []).flatMap((at) => formula.args[at] ?? []);
  return through.some((each) => mayBeBlank(each, sheets));
}
